/** How a lay's cloth lies and what is on it: folded over in part, an odd piece, other suits beside. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, go, journey, openSection, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-15";

/** The shell's part of the section. */
async function shell(page, studio) {
  await go(page, `${studio.url}/suits/${SUIT}#lay`);
  await openSection(page, "Lay");
  const part = section(page, "Lay").locator("#lay-shell");
  await part.locator("svg.laycloth g.laid-piece").first().waitFor();
  return part;
}

/** What the studio has of the shell. */
async function told(studio) {
  const { body } = await studio.get(`/api/v1/suits/${SUIT}`);
  return body.lay.cloths.find((cloth) => cloth.layer === "shell");
}

test("folded over in part, the depth found or written; an odd piece by its corners is laid on", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const rules = section(page, "Lay").locator(".layrules");
    await rules.locator("summary").click();
    await rules.getByText("Folded over in part", { exact: true }).click();
    await part.locator("svg.laycloth path.upperselvedge").waitFor({ state: "attached", timeout: 30_000 });
    const found = (await told(studio)).lay.drawing;
    assert.equal(found.fold, "partial");
    await rules.getByRole("button", { name: /change folded over by$/i }).click();
    await rules.getByText(/as deep as is best, now the shell/).waitFor();
    const depth = rules.getByRole("textbox", { name: /folded over by/i });
    await depth.fill("42");
    await depth.press("Enter");
    await until(async () => assert.equal((await told(studio)).lay.drawing.fold_at, 420));
    // Two lanes as wide as that: the line of the upper selvedge is where it lies.
    const line = await part.locator("path.upperselvedge").evaluate((path) => path.getBBox().x);
    assert.ok(Math.abs(line - 420) < 0.01, `${line}`);
    await part.getByText("Write down a piece").click();
    const odd = part.locator(".oddform");
    await odd.getByRole("textbox").fill("0 x 0, 200");
    await odd.getByRole("button", { name: "Keep the odd piece" }).click();
    await odd.getByText(/These are no corners yet/).waitFor();
    await odd.getByRole("textbox").fill("0 x 0, 200 x 0, 200 x 60, 120 x 150, 0 x 150");
    await odd.getByRole("button", { name: "Keep the odd piece" }).click();
    await part.getByRole("button", { name: "Lay on it: odd piece of 150 x 200 cm" }).click();
    await part.locator("svg.laycloth path.oddedge").waitFor();
    const laid = await told(studio);
    assert.equal(laid.on, "an odd piece of 150 x 200 cm, single");
    // Every corner of every piece is on the cloth.
    const off = await part.locator("svg.laycloth").evaluate((svg) => {
      const edge = svg.querySelector("path.oddedge");
      const point = svg.createSVGPoint();
      return [...svg.querySelectorAll("g.laid-piece path.k-cut")].filter((path) => {
        const length = path.getTotalLength();
        return Array.from({ length: 40 }, (_, k) => path.getPointAtLength((k * length) / 40)).some((at) => {
          [point.x, point.y] = [at.x, at.y];
          return !edge.isPointInFill(point);
        });
      }).length;
    });
    assert.equal(off, 0, "a piece lies where there is no cloth");
    assert.deepEqual(await axe(page), []);
  }));

test("another suit of the same cloth is laid on the same length, and taken out again", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const own = (await told(studio)).lay.drawing.pieces.length;
    const others = section(page, "Lay").locator(".laywith");
    await others.locator("summary").click();
    await others.getByRole("checkbox", { name: /^Maren’s one-piece/ }).click({ force: true });
    await others.getByText(/^its shell and lining with this one’s$/).waitFor();
    const both = await told(studio);
    assert.ok(both.lay.drawing.pieces.length > own);
    assert.equal(await part.locator("svg.laycloth g.laid-piece").count(), both.lay.drawing.pieces.length);
    await part.getByText(/That is for 2 suits/).waitFor();
    await page.getByRole("button", { name: /^Back one: laid Maren’s one-piece with it/ }).first().click();
    await until(async () => assert.equal((await told(studio)).lay.drawing.pieces.length, own));
    assert.deepEqual(await axe(page), []);
  }));

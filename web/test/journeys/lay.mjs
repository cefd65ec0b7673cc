/**
 * The lay: packed while she watches and stopped, pieces moved by keys and by pointer, a flaw avoided, the rest kept, every cloth asked and one
 * chosen.
 */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, go, isKept, journey, openSection, section, until } from "../kit.mjs";

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

const number = async (locator) => Number.parseFloat(await locator.textContent());
/** Where a piece is drawn: the left and upper end of its outline, mm, its own transform counted. Outlines are written to 0.1 mm. */
const corner = (piece) =>
  piece.evaluate((group) => {
    const box = group.querySelector("path.k-cut").getBBox();
    const by = /translate\(([-\d.e]+) ([-\d.e]+)\)/.exec(group.getAttribute("transform"));
    return { x: box.x + Number(by?.[1] ?? 0), y: box.y + Number(by?.[2] ?? 0) };
  });

test("the lay gets shorter before her eyes, is stopped, and kept; it goes back one like anything else", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const first = await told(studio);
    assert.equal(first.lay.standing, "quick");
    const names = await part.locator("text.piecename").allTextContents();
    assert.ok(names.length >= 2 && names.every((name) => name.trim() !== ""), String(names));
    const before = await number(part.locator(".laylength span[aria-hidden]").first());
    await part.getByRole("button", { name: /^Pack it closer$/ }).click();
    const strip = part.getByRole("progressbar");
    await strip.waitFor();
    assert.match(await part.locator(".progress p").textContent(), /./);
    await until(async () => assert.ok(Number(await strip.getAttribute("aria-valuenow")) >= 5, "the strip does not fill"));
    // Pieces are not moved by hand meanwhile.
    assert.equal(await part.locator("g.laid-piece.still").count(), names.length);
    await part.getByRole("button", { name: "Stop" }).click();
    await part.getByText("Stopped, and kept as it was then.").waitFor();
    const kept = await told(studio);
    assert.equal(kept.lay.standing, "kept");
    const after = await number(part.locator(".laylength span[aria-hidden]").first());
    assert.ok(after <= before + 0.05, `${before} became ${after}`);
    // Not shorter than anyone could.
    assert.ok(after >= Number.parseFloat(kept.lay.bound.main) - 0.05);
    // The paper goes by what was kept.
    const plan = await studio.get(`/api/v1/suits/${SUIT}/files/report.json`);
    const reported = plan.body.lays.find((lay) => lay.layer === "shell");
    assert.ok(Math.abs(reported.lay.cloth_mm / 10 - after) < 0.06, `${reported.lay.cloth_mm}`);
    await page.getByRole("button", { name: /^Back one: packed the shell/ }).first().click();
    await until(async () => assert.equal((await told(studio)).lay.standing, "quick"));
    assert.deepEqual(await axe(page), []);
  }));

test("a piece is moved by keys and by pointer; what may not lie there is shown, not kept; packing goes round it", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const drawn = (await told(studio)).lay.drawing;
    // The piece that ends last has only bare cloth behind it.
    const last = [...drawn.pieces].sort((a, b) => b.frame.y + b.frame.height - (a.frame.y + a.frame.height))[0];
    const piece = part.locator(`[id="laid-${last.piece}.${last.copy}"]`);
    await piece.focus();
    const start = await corner(piece);
    await page.keyboard.press("Shift+ArrowDown");
    await page.keyboard.press("ArrowDown");
    await part.getByText(/lies well there/).waitFor();
    await until(async () => assert.ok(Math.abs((await corner(piece)).y - start.y - 6) < 0.02, "six millimetres down"));
    await page.keyboard.press("Enter");
    await until(async () => assert.equal((await told(studio)).lay.by_hand, 1));
    const placed = (await told(studio)).lay.drawing.pieces.find((one) => one.piece === last.piece && one.copy === last.copy);
    assert.ok(Math.abs(placed.frame.y - last.frame.y - 6) < 0.02 && placed.by_hand);
    // Off the cloth: shown there, said, not kept.
    await until(async () => assert.equal(await part.locator("g.laid-piece.held").count(), 0));
    await piece.focus();
    const far = Math.ceil(placed.frame.x / 5) + 2;
    for (let n = 0; n < far; n += 1) await page.keyboard.press("Shift+ArrowLeft");
    await part.getByText(/can’t lie there: .*past the cloth/).waitFor();
    assert.ok((await corner(piece)).x < 0, "it was put somewhere else");
    await page.keyboard.press("Enter");
    await page.waitForTimeout(400);
    assert.equal((await told(studio)).lay.drawing.pieces.find((one) => one.piece === last.piece && one.copy === last.copy).frame.x, placed.frame.x);
    await page.keyboard.press("Escape");
    await until(async () => assert.ok(Math.abs((await corner(piece)).x - placed.frame.x) < 0.06, "Escape does not put it back"));
    // By pointer, down by some more.
    await piece.scrollIntoViewIfNeeded();
    const box = await piece.locator("path.k-cut").boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y + 10, { steps: 3 });
    await page.mouse.move(x, y + 20, { steps: 3 });
    await page.mouse.up();
    await until(async () => {
      const now = (await told(studio)).lay.drawing.pieces.find((one) => one.piece === last.piece && one.copy === last.copy);
      assert.ok(now.frame.y > placed.frame.y + 5, `${now.frame.y} after ${placed.frame.y}`);
    });
    const held = (await told(studio)).lay.drawing.pieces.find((one) => one.piece === last.piece && one.copy === last.copy);
    await until(async () => assert.equal(await part.locator("g.laid-piece.held").count(), 0));
    await part.getByRole("button", { name: "Pack around what I placed" }).click();
    await part.getByText(/^(Packed and kept|Stopped)/).waitFor({ timeout: 30_000 });
    const around = (await told(studio)).lay;
    const still = around.drawing.pieces.find((one) => one.piece === last.piece && one.copy === last.copy);
    assert.deepEqual([still.frame.x, still.frame.y, still.by_hand], [held.frame.x, held.frame.y, true]);
    assert.equal(around.drawing.pieces.length, drawn.pieces.length);
  }));

test("a flaw is marked and avoided; the rest is kept, offered again, and asked whether it fits", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const before = (await told(studio)).lay.drawing.pieces[0];
    await part.getByText(/^Flaws: none marked$/).click();
    const middle = { x: before.frame.x + before.frame.width / 2, y: before.frame.y + before.frame.height / 2 };
    const flaw = { "From the cut end": middle.y, "From the selvedge": middle.x, "Length along": 40, "Width across": 50 };
    const form = part.locator(".layflaws .layform");
    for (const [label, mm] of Object.entries(flaw)) await form.getByRole("textbox", { name: new RegExp(`^${label}`) }).fill(`${(mm / 10).toFixed(1)}`);
    await form.getByRole("button", { name: "Mark it" }).click();
    await part.getByText(/^Flaws: 1 marked$/).waitFor();
    await part.locator("g.layflaw").waitFor();
    const now = (await told(studio)).lay.drawing;
    assert.equal(now.flaws.length, 1);
    const [hole] = now.flaws;
    assert.ok(Math.abs(hole.x - middle.x) < 1 && Math.abs(hole.width - 50) < 0.1 && Math.abs(hole.height - 40) < 0.1);
    // No outline has a corner in it, nor does the flaw lie in a piece: its middle is on bare cloth.
    const covered = await part.locator("svg.laycloth").evaluate((svg, at) => {
      const point = svg.createSVGPoint();
      [point.x, point.y] = [at.x, at.y];
      return [...svg.querySelectorAll("g.laid-piece path.k-cut")].some((path) => path.isPointInFill(point));
    }, { x: hole.x + hole.width / 2, y: hole.y + hole.height / 2 });
    assert.equal(covered, false, "a piece lies on the flaw");

    const rest = (await told(studio)).lay.rest;
    assert.ok(rest.length > 0, "nothing is left whole");
    await part.getByRole("button", { name: /^Keep the rest/ }).click();
    await isKept(page);
    const line = part.locator(".athand > ul > li").first();
    await line.getByText(rest[0].words).waitFor();
    assert.match(await line.textContent(), /left of/);
    // It is the cloth's, and can be asked about.
    const cloth = (await told(studio)).document;
    const { body } = await studio.get(`/api/v1/documents/${cloth}`);
    assert.equal(body.body.at_hand.length, rest.length);
    await part.getByRole("button", { name: "Lay it on each of them" }).click();
    const list = part.locator(".canmake > li");
    await list.first().waitFor({ timeout: 60_000 });
    // Every outer cloth, and what was just kept of this one.
    const said = await list.allInnerTexts();
    assert.ok(said.some((row) => /Kelp print/.test(row) && /drafted anew/.test(row)), String(said));
    assert.ok(said.some((row) => row.includes(rest[0].words) && /enough/.test(row)), String(said));
    assert.ok(said.every((row) => !/Oat lining|Power mesh/.test(row)), "a lining is no outer cloth");
    // Chosen, it is laid on; one step back, and it is not.
    await part.getByRole("button", { name: /^Lay it on this: Kelp print/ }).click();
    await until(async () => assert.equal((await told(studio)).name, "Kelp print"));
    await part.getByText("Asked before something changed.").waitFor();
    assert.notEqual((await told(studio)).on, null);
    await page.getByRole("button", { name: /^Back one: laid the shell on Kelp print/ }).first().click();
    await until(async () => assert.equal((await told(studio)).name, "Slate tricot"));
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "the page scrolls sideways");
    assert.deepEqual(await axe(page), []);
  }));

test("on a phone: names or letters can be read, nothing scrolls sideways", () =>
  journey(browser, { width: 390, height: 844, touch: true }, async ({ studio, page }) => {
    const part = await shell(page, studio);
    const sizes = await part.locator("text.piecename").evaluateAll((all) => all.map((text) => text.getBoundingClientRect().height));
    assert.ok(sizes.every((size) => size >= 13), String(sizes));
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "the page scrolls sideways");
  }));

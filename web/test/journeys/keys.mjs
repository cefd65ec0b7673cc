/** The keyboard alone, and the page on paper. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { SECTIONS, go, isKept, journey, openAll, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-14";

/** Presses Tab until the focus stands on something that reads like this. */
async function tabTo(page, reads, { most = 400, back = false } = {}) {
  for (let n = 0; n < most; n += 1) {
    await page.keyboard.press(back ? "Shift+Tab" : "Tab");
    const now = await page.evaluate(() => {
      const at = document.activeElement;
      return (at?.getAttribute("aria-label") ?? at?.textContent ?? "").trim();
    });
    if (reads.test(now)) return now;
  }
  throw new Error(`no stop of the Tab key reads ${reads}`);
}

test("without a mouse: jump with 1 to 8, change a value, move a handle, take it back", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}`);
    for (const [i, name] of SECTIONS.entries()) {
      await page.keyboard.press(String(i + 1));
      await page.waitForFunction((wanted) => document.activeElement?.tagName === "H2" && document.activeElement.textContent === wanted, name);
      assert.ok(await section(page, name).locator("> .body").isVisible(), `${name} does not open`);
    }
    await page.keyboard.press("3");
    await tabTo(page, /, change Strap$/);
    await page.keyboard.press("Enter");
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("4.5");
    await page.keyboard.press("Enter");
    await isKept(page);
    const strap = section(page, "Shape").getByRole("button", { name: /, change Strap$/ });
    await until(async () => assert.match(await strap.textContent(), /4\.5/));
    assert.ok(await strap.evaluate((element) => element === document.activeElement), "the focus is lost after keeping");

    // A handle with the arrow keys: drawn first, kept with Enter.
    await page.keyboard.press("3");
    await tabTo(page, /^Strap/);
    const ring = page.locator("#handle-strap_width");
    assert.ok(await ring.evaluate((element) => element === document.activeElement));
    const before = Number(await ring.getAttribute("aria-valuenow"));
    const cut = () => page.locator("svg.piecedrawing").first().locator("path.k-cut").getAttribute("d");
    const outline = await cut();
    for (let n = 0; n < 4; n += 1) await page.keyboard.press("ArrowRight");
    await until(async () => assert.notEqual(Number(await ring.getAttribute("aria-valuenow")), before));
    await page.locator("path.k-old").first().waitFor();
    const stored = async () => (await studio.get(`/api/v1/documents/${SUIT}`)).body.body.design.strap_width;
    assert.equal(await stored(), "4.5 cm", "kept before Enter");
    await page.keyboard.press("Enter");
    await until(async () => assert.notEqual(await stored(), "4.5 cm"));
    await page.locator("path.k-old").first().waitFor({ state: "detached" });
    assert.notEqual(await cut(), outline);
    assert.ok(await ring.evaluate((element) => element === document.activeElement), "the handle loses the focus");

    // Escape puts a handle back.
    const after = await stored();
    await page.keyboard.press("ArrowLeft");
    await page.locator("path.k-old").first().waitFor();
    await page.keyboard.press("Escape");
    await page.locator("path.k-old").first().waitFor({ state: "detached" });
    assert.equal(await stored(), after);

    // Back one, twice; then forward.
    await tabTo(page, /^Back one/);
    await page.keyboard.press("Enter");
    await until(async () => assert.equal(await stored(), "4.5 cm"));
    await until(async () => assert.ok(await page.evaluate(() => /^Back one/.test(document.activeElement?.textContent ?? "")), "the focus is lost after Back one"));
    await page.keyboard.press("Enter");
    await until(async () => assert.equal(await stored(), undefined));
    await tabTo(page, /^Forward/);
    await page.keyboard.press("Enter");
    await until(async () => assert.equal(await stored(), "4.5 cm"));

    // The same with Ctrl+Z, as everywhere; in a field it is the field's own.
    await page.keyboard.press("3");
    await page.keyboard.press("ControlOrMeta+z");
    await until(async () => assert.equal(await stored(), undefined));
    await page.keyboard.press("ControlOrMeta+Shift+z");
    await until(async () => assert.equal(await stored(), "4.5 cm"));

    // Number keys are letters in a field.
    await tabTo(page, /, change Strap$/, { back: false });
    await page.keyboard.press("Enter");
    await page.keyboard.press("8");
    assert.equal(await page.evaluate(() => document.activeElement?.tagName), "INPUT");
    await page.keyboard.press("ControlOrMeta+z");
    await page.keyboard.press("Escape");
    assert.equal(await stored(), "4.5 cm");
  }));

test("an order on paper: nothing to press, every section, no empty sheets", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}`);
    await openAll(page);
    await page.emulateMedia({ media: "print" });
    for (const gone of [".ticket", ".textlink", ".marks", ".foot", ".skip", ".progress", ".acts", "textarea"]) {
      assert.equal(await page.locator(`${gone}:visible`).count(), 0, `${gone} is printed`);
    }
    for (const name of SECTIONS) assert.ok(await page.getByRole("heading", { level: 2, name, exact: true }).isVisible(), `${name} is not printed`);
    assert.ok((await page.locator(".note:visible").count()) >= 3, "the notes are not printed");
    assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), "rgb(255, 255, 255)");
    const bytes = await page.pdf({ preferCSSPageSize: true, format: "A4" });
    assert.equal(bytes.subarray(0, 5).toString("latin1"), "%PDF-");
    const sheets = bytes.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    assert.ok(sheets >= 3 && sheets <= 16, `${sheets} sheets`);
  }));

test("every handle of every suit stands on its piece, where it can be reached", () =>
  journey(browser, {}, async ({ studio, page }) => {
    for (const suit of ["example-14", "example-15", "example-16", "example-17", "example-18"]) {
      const { body } = await studio.get(`/api/v1/suits/${suit}`);
      await go(page, `${studio.url}/suits/${suit}#shape`);
      const shape = section(page, "Shape");
      await until(async () => {
        const drawn = await shape.getByRole("slider").evaluateAll((rings) => rings.map((ring) => ring.id.replace("handle-", "")).sort());
        assert.deepEqual(drawn, body.shape.handles.map((handle) => handle.key).sort(), suit);
      });
    }
  }));

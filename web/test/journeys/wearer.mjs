/** A slip of the tape is caught, and a third reading settles it. A try-on becomes the next version. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { choose, go, isKept, journey, openSection, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

test("a second reading of the waist 3 cm off is doubted, with what to do; a third settles it", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await studio.post("/api/v1/edits", {
      parts: [{ document: "example-maren", base: (await studio.get("/api/v1/documents/example-maren")).body.revision }],
      changes: [{ document: "example-maren", path: "dimensions.waist_girth", value: null }],
      words: "",
    });
    await go(page, `${studio.url}/suits/example-14#wearer`);
    const wearer = section(page, "Wearer");
    const hand = page.locator(".inhand");
    const waist = wearer.getByRole("list", { name: "Dimensions" }).getByRole("button", { name: /waist girth/i });
    const take = async (which, text) => {
      const field = hand.getByRole("textbox", { name: new RegExp(`^${which} reading`) });
      // The reading before may still be on its way to the page: then the field is cleared, and a person types again.
      await until(async () => {
        if ((await field.count()) > 0 && (await field.inputValue({ timeout: 500 })) === "") {
          await field.fill(text, { timeout: 500 });
          await field.press("Enter", { timeout: 500 });
        }
        const { body } = await studio.get("/api/v1/documents/example-maren");
        assert.equal(body.body.dimensions.waist_girth?.readings.at(-1), `${text} cm`);
      });
    };
    await waist.click();
    await hand.getByRole("heading", { level: 3, name: /^waist girth$/i }).waitFor();
    await take("First", "73.0");
    await waist.click();
    await take("Second", "76.0");
    await until(async () => assert.match(await waist.textContent(), /^Doubtful/));
    const note = wearer.locator("aside, .margin").getByText(/waist/i).first();
    await note.waitFor();
    const said = await wearer.locator(".margin .note").filter({ hasText: /waist/i }).first().textContent();
    assert.match(said, /Doubtful/);
    assert.match(said, /3(\.0)?\scm/, "the note does not say how far apart they are");
    assert.match(said, /third|again/i, "the note does not say what to do");

    await waist.click();
    await hand.getByRole("button", { name: "Take it again" }).click();
    await take("Third", "73.4");
    await until(async () => assert.doesNotMatch(await waist.textContent(), /Doubtful/));
    assert.match(await waist.textContent(), /73\.[0-4]/);
    await until(async () => assert.equal(await wearer.locator(".margin .note").filter({ hasText: /waist.*readings/i }).count(), 0));
    await isKept(page);
  }));

test("a try-on note becomes version 2, and the overlay shows two lines", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/example-18#try-on`);
    const tryOn = section(page, "Try-on");
    const overlay = tryOn.locator(".overlay svg");
    const lines = () => overlay.locator("path.k-cut, path.k-old").count();
    await tryOn.getByRole("button", { name: "Make version 2" }).click();
    await page.getByText("No. 18, version 2").waitFor();
    await tryOn.getByRole("button", { name: "Write a try-on note" }).click();
    await tryOn.getByLabel("In her own words, a line for each thing").fill("Straps slip.\nLegs are fine.");
    await tryOn.getByLabel("Carer who was there").fill("Her father");
    const strap = tryOn.getByRole("radiogroup", { name: /^Strap/ }).first();
    await strap.getByRole("radio").nth(1).click();
    const chosen = await strap.getByRole("radio", { checked: true }).textContent();
    assert.notEqual(chosen, "as it is");
    await tryOn.getByRole("button", { name: "Keep the note" }).click();
    await tryOn.getByText("“Straps slip.”").waitFor();
    await tryOn.getByText("“Legs are fine.”").waitFor();
    await tryOn.getByText(new RegExp(chosen)).first().waitFor();
    assert.equal(await lines(), 2);
    assert.match(await overlay.getAttribute("aria-label"), /version 2 in ink, 1 in dots/);
    const [now, old] = await Promise.all([
      overlay.locator("path.k-cut").getAttribute("d"),
      overlay.locator("path.k-old").getAttribute("d"),
    ]);
    assert.notEqual(now, old, "both versions are drawn alike");
    await tryOn.getByRole("heading", { name: "Versions that were cut" }).waitFor();
    await page.reload();
    await page.getByText("No. 18, version 2").waitFor();
    await openSection(page, "Try-on");
    await tryOn.getByText("“Straps slip.”").waitFor();
    assert.equal(await lines(), 2);
  }));

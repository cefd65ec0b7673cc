/**
 * The booklet in the studio: from the Paper section to the page, both editions and languages, the frame as high as what is in
 * it, no figure of the wearer's in a class's edition, the pages themselves under axe, the PDF, and a suit that has none yet.
 */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { SIZES, axe, choose, frames, go, journey, openSection, section, sideways, tooSmall } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** The booklet inside the page, once its first heading stands there. */
async function inside(page, heading) {
  const frame = page.frameLocator("iframe.bookletpages");
  await frame.getByRole("heading", { level: 2, name: heading, exact: true }).waitFor();
  return frame;
}

test("a booklet to read, for her and for a class", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/example-14`);
    await openSection(page, "Paper");
    await section(page, "Paper").getByRole("link", { name: "Booklet" }).click();
    await page.getByRole("heading", { level: 1, name: "Booklet" }).waitFor();

    let booklet = await inside(page, "The elastic map");
    assert.match(await booklet.getByRole("table", { name: "Dimensions of the wearer" }).innerText(), /\d\.\d\scm/);
    // As high as its contents: nothing scrolls inside the frame.
    const hidden = () =>
      page.locator("iframe.bookletpages").evaluate((frame) => {
        const { documentElement } = frame.contentDocument;
        return documentElement.scrollHeight - frame.clientHeight;
      });
    await frames(page);
    assert.ok((await hidden()) <= 0, `${await hidden()} px are cut off`);

    await choose(page, "Edition", "For a class, with lines");
    booklet = await inside(page, "The elastic map");
    await booklet.getByText("Write your own lengths on the lines", { exact: false }).first().waitFor();
    assert.doesNotMatch(await booklet.getByRole("main").innerText(), /\d\.\d\scm/);

    await choose(page, "Language", "Deutsch");
    booklet = await inside(page, "Der Gummiplan");
    assert.equal(await booklet.locator("html").getAttribute("lang"), "de");

    const found = [];
    for (const night of [false, true]) {
      await page.emulateMedia({ colorScheme: night ? "dark" : "light" });
      for (const { name, width, height } of SIZES) {
        await page.setViewportSize({ width, height });
        await frames(page);
        const told = (fault) => found.push(`${name}${night ? ", night" : ""}: ${fault}`);
        const over = await sideways(page);
        if (over !== 0) told(`scrolls sideways by ${over} px`);
        (await tooSmall(page)).forEach(told);
      }
      (await axe(page)).forEach((fault) => found.push(fault));
    }
    await page.emulateMedia({ colorScheme: "light" });
    assert.deepEqual(found, []);

    // Day or night of these pages is that of the booklet.
    const light = await page.locator("html").getAttribute("data-light");
    assert.equal(await booklet.locator("html").getAttribute("data-light"), light);
  }));

test("its pages alone, and its PDF", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const at = `${studio.url}/api/v1/suits/example-14/booklet`;
    const { can_set_pdf: canSet } = await (await page.request.get(at)).json();
    for (const night of [false, true]) {
      await page.emulateMedia({ colorScheme: night ? "dark" : "light" });
      await page.setViewportSize({ width: 390, height: 844 });
      await page.goto(`${at}/index.html`);
      assert.equal(await sideways(page), 0);
      assert.deepEqual(await axe(page), []);
    }
    const pdf = await page.request.get(`${at}/a4.pdf?edition=class&language=de`);
    if (canSet) {
      assert.equal(pdf.status(), 200);
      assert.equal(pdf.headers()["content-type"], "application/pdf");
      assert.equal((await pdf.body()).subarray(0, 5).toString(), "%PDF-");
    } else {
      assert.equal(pdf.status(), 501);
    }
    assert.equal((await page.request.get(`${at}/index.html?language=xx`)).status(), 422);
    assert.equal((await page.request.get(`${at}/booklet.txt`)).status(), 404);
  }));

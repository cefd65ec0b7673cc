/** The shopping list: from the order, stock taken off, prices in, a quote, and both as PDF. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, change, go, isKept, journey, openSection, section, sideways, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-14";
const list = async (studio) => (await studio.get(`/api/v1/suits/${SUIT}/shopping`)).body.list;

test("what to buy, what it costs, and a quote", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#lay`);
    await openSection(page, "Lay");
    await section(page, "Lay").getByRole("link", { name: "What to buy, and what it costs" }).click();
    await page.getByRole("heading", { level: 1, name: "Shopping list" }).waitFor();
    const buy = section(page, "To buy");
    // There is enough of the cloth; of the elastic there is some.
    const row = async (start) => (await buy.getByRole("row", { name: new RegExp(`^${start}`) }).textContent()) ?? "";
    await buy.getByRole("row", { name: /^Slate tricot/ }).waitFor();
    assert.match(await row("Slate tricot"), /to buy nothing/);
    assert.match(await row("Elastic"), /in stock 1\.4 m.*to buy .*cost \d+\.\d\d EUR/);
    await section(page, "Quote").getByRole("row", { name: /^All together/ }).getByText(/EUR to .* EUR/).waitFor();
    assert.deepEqual(await axe(page), []);
    assert.equal(await sideways(page), 0);
    for (const [name, words] of [["shopping-list.pdf", "Take the list as PDF"], ["quote.pdf", "Take the quote as PDF"]]) {
      const href = await page.getByRole("link", { name: words }).getAttribute("href");
      const answer = await fetch(new URL(href, studio.url));
      assert.equal(answer.headers.get("content-type"), "application/pdf", name);
      assert.equal(Buffer.from(await answer.arrayBuffer()).subarray(0, 5).toString(), "%PDF-", name);
    }

    // The hour becomes dearer, and so does the suit; the price is written where prices are.
    const before = (await list(studio)).quote.total;
    await go(page, `${studio.url}/workroom#prices`);
    await change(section(page, "Prices"), "Price of an hour", "48");
    await isKept(page);
    await until(async () => assert.notEqual((await list(studio)).quote.total, before));
    // The hours she really takes make it one figure instead of a range.
    await change(section(page, "Prices"), "Hours of your own for a suit", "6");
    await until(async () => assert.doesNotMatch((await list(studio)).quote.total, / to /));
    await go(page, `${studio.url}/suits/${SUIT}#sew`);
    await openSection(page, "Sew");
    await section(page, "Sew").getByRole("link", { name: "What to buy, and what it costs" }).click();
    await page.getByRole("heading", { level: 1, name: "Shopping list" }).waitFor();
    // More thread in the drawer than the suit takes: nothing of it is to buy.
    const { body } = await studio.get("/api/v1/documents/workroom");
    const threads = body.body.threads.map((thread) => ({ ...thread, metres: 5000 }));
    await studio.post("/api/v1/edits", {
      parts: [{ document: "workroom", base: body.revision }],
      changes: [{ document: "workroom", path: "threads", value: threads }],
      words: "",
    });
    const of = (await list(studio)).lines.filter((line) => line.what.startsWith("Thread"));
    assert.ok(of.length > 0 && of.every((line) => line.to_buy === null), JSON.stringify(of));
  }));

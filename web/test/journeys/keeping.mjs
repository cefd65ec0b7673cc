/** Keeping the workroom: a backup put back, one's own archive brought in; and what a page says of a thing's state. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { go, journey, openSection, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const MOMENT = /\d{1,2} [A-Z][a-z]+ \d{4}, \d\d:\d\d/;

test("a backup is put back, and the copy of what was there is named by its moment", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/workroom`);
    const keeping = section(page, "Keeping");
    await keeping.getByRole("button", { name: "Make one now" }).click();
    await keeping.getByText("One was made.").waitFor();
    const first = keeping.getByRole("listitem").first();
    await until(async () => assert.match(await first.textContent(), MOMENT));
    await first.getByRole("button", { name: /^Put it back/ }).click();
    await first.getByRole("button", { name: "Put it back", exact: true }).click();
    const said = keeping.getByText(/What was there before is kept/);
    await said.waitFor();
    const words = await said.textContent();
    assert.match(words, new RegExp(`the copy of ${MOMENT.source}\\.$`));
    assert.doesNotMatch(words, /\.(db|sqlite)|\d{8}|T\d\d/, "a file name");
  }));

test("an archive of one's own workroom adds nothing; what differs comes in as a second", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const archive = Buffer.from(await (await fetch(`${studio.url}/api/v1/archive`)).arrayBuffer());
    const count = async () => (await studio.get("/api/v1/home")).body.wearers.length;
    const before = await count();
    await go(page, `${studio.url}/workroom`);
    const keeping = section(page, "Keeping");
    const bring = () =>
      keeping.getByLabel("Bring one in").setInputFiles({ name: "workroom.zip", mimeType: "application/zip", buffer: archive });
    await bring();
    await keeping.getByText(/^Nothing added: all \d+ things in it are already here\.$/).waitFor();
    assert.equal(await count(), before);

    const { body } = await studio.get("/api/v1/documents/example-tove");
    await studio.post("/api/v1/edits", {
      parts: [{ document: "example-tove", base: body.revision }],
      changes: [{ document: "example-tove", path: "notes", value: "Left-handed." }],
      words: "",
    });
    await bring();
    await keeping.getByText(/already here\. Other than here, and kept beside it: Tove, second\.$/).waitFor();
    assert.equal(await count(), before + 1);
    await go(page, studio.url);
    await page.getByRole("link", { name: /Tove, second/ }).waitFor();
  }));

test("a wearer's own page shows that a reading is doubted", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/wearers/example-maren`);
    await page.getByRole("link", { name: /^Readings ?: doubtful/ }).waitFor();
    const readings = section(page, "Readings");
    await readings.getByText(/in doubt/).waitFor();
    await readings.getByRole("complementary", { name: "Readings: notes" }).getByText(/between readings/).waitFor();
    await go(page, `${studio.url}/wearers/example-tove`);
    await page.getByRole("link", { name: /^Readings ?: good/ }).waitFor();
  }));

test("what to buy of the elastic is the same in the note and in the table", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/example-14#sew`);
    await openSection(page, "Sew");
    const sew = section(page, "Sew");
    const row = sew.getByRole("table", { name: "Elastic to buy" }).getByRole("row").nth(1);
    const [needed, hand, buy] = (await row.getByRole("cell").allTextContents()).slice(-3).map((cell) => /[\d.]+\sm/.exec(cell)?.[0].replace(/\s/, " "));
    const note = (await sew.locator(".margin .note").filter({ hasText: "in hand" }).textContent()).replaceAll(/\s/g, " ");
    assert.ok(note.includes(`${needed} needed, ${hand} in hand.`), note);
    assert.ok(note.includes(`Buy ${buy}.`), note);
  }));

test("a suit with nothing drafted cannot be made into a version", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const { body } = await studio.post("/api/v1/suits", { name: "New", wearer: null, like: null });
    await go(page, `${studio.url}/suits/${body.id}#try-on`);
    await openSection(page, "Try-on");
    await section(page, "Try-on").getByText(/Nothing to try on yet/).first().waitFor();
    assert.equal(await page.getByRole("button", { name: /^Make version/ }).count(), 0);
    const refused = await studio.post(`/api/v1/suits/${body.id}/versions`, { words: "" });
    assert.equal(refused.status, 422);
  }));

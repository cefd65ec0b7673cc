/** Keeping the workroom: a backup put back, one's own archive brought in; and what a page says of a thing's state. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { change, go, isKept, journey, openSection, section, until } from "../kit.mjs";

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

test("a page elsewhere follows when a backup is put back", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, studio.url);
    await page.getByRole("link", { name: /14 Maren/ }).waitFor();
    const { body: backup } = await studio.post("/api/v1/backups", {});
    await studio.remove("/api/v1/documents/example-14");
    await page.getByRole("link", { name: /14 Maren/ }).waitFor({ state: "detached" });
    await studio.post(`/api/v1/backups/${backup.name}/restore`, {});
    await page.getByRole("link", { name: /14 Maren/ }).waitFor();
  }));

test("an order goes into the bin, comes back, and is deleted for good", () =>
  journey(browser, { expects: [/status of 404/] }, async ({ studio, page }) => {
    const take = async () => {
      await go(page, `${studio.url}/suits/example-15`);
      await page.getByRole("button", { name: "Put this order into the bin" }).click();
      await page.getByText(/is in the bin\.$/).waitFor();
    };
    const count = async () => (await studio.get("/api/v1/home")).body.suits.length;
    const all = await count();
    // Back at once, from where it was taken out.
    await take();
    assert.equal(await count(), all - 1);
    await page.getByRole("button", { name: /^Back one:/ }).click();
    await page.getByText("No. 15, version").waitFor();
    assert.equal(await count(), all);
    // Back later: its address still knows it, and so does the workroom.
    await take();
    await page.reload();
    await page.getByText(/is in the bin\.$/).waitFor();
    await page.getByRole("button", { name: /^Back one:/ }).click();
    await page.getByText("No. 15, version").waitFor();
    await take();
    await go(page, `${studio.url}/workroom#keeping`);
    const bin = section(page, "Keeping").getByRole("list", { name: "In the bin" });
    await bin.getByText(/Suit No\. 15, for Odile, since \d/).waitFor();
    await bin.getByRole("button", { name: /^Put it back/ }).click();
    await section(page, "Keeping").getByText(/is back\.$/).waitFor();
    assert.equal(await count(), all);
    // For good, asked once more; a page that still shows it says that it was taken out.
    const other = await page.context().newPage();
    await go(other, `${studio.url}/suits/example-15`);
    await take();
    await other.locator(".head .kept").getByText("this order was taken out").waitFor();
    await other.close();
    await go(page, `${studio.url}/workroom#keeping`);
    await bin.getByRole("button", { name: /^Delete it for good/ }).click();
    const really = section(page, "Keeping").getByRole("group", { name: /^Delete / });
    await really.getByText("This cannot be taken back.").waitFor();
    await really.getByRole("button", { name: /for good$/ }).click();
    await section(page, "Keeping").getByText(/is deleted, here and in \d+ backup/).waitFor();
    assert.equal(await bin.getByRole("listitem").count(), 0);
    assert.equal((await studio.get("/api/v1/documents/example-15")).status, 404);
    await go(page, `${studio.url}/suits/example-15`);
    await page.getByText(/There is no/).first().waitFor();
  }));

test("what is measured of the printer on the order stands in the workroom, and the other way round", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const line = (inside, name) => inside.getByRole("button", { name: new RegExp(`, change ${name}$`) });
    await go(page, `${studio.url}/suits/example-14#paper`);
    await openSection(page, "Paper");
    const paper = section(page, "Paper");
    await change(paper, "Square, across the page", "99.4");
    await change(paper, "Square, down the page", "100.2");
    await change(paper, "White edge of the printer", "3");
    await until(async () => assert.match(await line(paper, "White edge of the printer").textContent(), /^3/));
    await go(page, `${studio.url}/workroom#printer`);
    const printer = section(page, "Printer");
    await printer.getByText("So that paper comes out true.").waitFor();
    assert.match(await line(printer, "Square, across").textContent(), /^99\.4/);
    assert.match(await line(printer, "Square, down").textContent(), /^100\.2/);
    assert.match(await line(printer, "White edge").textContent(), /^3/);
    await change(printer, "Square, down", "99.8");
    await isKept(page);
    await go(page, `${studio.url}/suits/example-14#paper`);
    await openSection(page, "Paper");
    await paper.getByText(/makes 99\.4\smm across and 99\.8\smm down of\s100/).waitFor();
    await go(page, studio.url);
    await page.getByRole("link", { name: /^Workroom.*printer measured/ }).waitFor();
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

/**
 * A class in the studio: planned from nothing, wearers ticked, machines and sessions written, the room's sessions as bars, the kits
 * made one by one, stopped and made again; and a class with somebody the design cannot be drafted for.
 */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { choose, go, journey, sound } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** Writes a line of a form that is changed in place. */
async function write(item, name, text) {
  await item.getByRole("button", { name: new RegExp(`change ${name}$`) }).click();
  await item.getByRole("textbox", { name }).fill(text);
  await item.getByRole("button", { name: "Keep it" }).click();
  await item.getByRole("button", { name: new RegExp(`change ${name}$`) }).waitFor();
}

test("a class is planned, timed and packed", () =>
  journey(browser, { expects: [/status of 422/] }, async ({ studio, page }) => {
    await go(page, `${studio.url}/classes`);
    const item = page.locator(".shelflist > li").first();
    await item.getByRole("button").first().click();
    // Three people, the machines of the workroom.
    await item.getByText("3 people can sew it.").waitFor();
    await item.getByText("The machines of the workroom.").waitFor();
    await write(item, "Zigzag machines", "2");
    await write(item, "Overlockers", "1");
    await item.getByText("The machines written down for this class.").waitFor();
    const first = item.getByRole("region", { name: "Session 1, by machine" });
    await first.getByText("Four-thread overlocker", { exact: true }).waitFor();
    assert.deepEqual(await first.locator(".barname").allInnerTexts(), ["Zigzag machine 1", "Zigzag machine 2", "Four-thread overlocker"]);
    // No two bars of one machine lie over each other, and none leaves the session.
    for (const track of await first.locator(".bartrack").all()) {
      const spans = await track.locator(".bar").evaluateAll((all) => all.map((bar) => [parseFloat(bar.style.left), parseFloat(bar.style.width)]));
      // The browser rounds a style to some thousandths of a per cent.
      let end = 0;
      for (const [left, width] of spans.sort((a, b) => a[0] - b[0])) {
        assert.ok(left >= end - 1e-3, `a bar begins at ${left}, one before it ends at ${end}`);
        end = left + width;
      }
      assert.ok(end <= 100 + 1e-3, `a bar ends at ${end} %`);
    }
    await item.getByText(/No order of work in this room can take less than/).waitFor();
    // Longer sessions, fewer of them.
    const sessions = await item.locator(".classsession").count();
    await write(item, "Hours of a session", "8");
    await page.waitForFunction((before) => document.querySelectorAll(".classsession").length < before, sessions);
    await choose(item, "Session 1 by", "by person");
    await item.getByRole("region", { name: "Session 1, by person" }).getByText("B Odile", { exact: true }).waitFor();
    // An impossible length says so, and what to write.
    await write(item, "Hours of a session", "all day");
    await item.getByText(/“all day” is no length of a session/i).waitFor();
    await write(item, "Hours of a session", "3");
    await item.getByRole("table", { name: "Shopping list for all together" }).getByText(/Maren .*, Odile .*, Tove /).first().waitFor();
    // The cloth by area, then really laid, all kits of it together.
    const cloth = item.locator(".classcloth");
    await cloth.getByText(/^Counted by the area/).waitFor();
    await cloth.getByRole("button", { name: "Lay all kits together" }).click();
    await cloth.getByText(/^All kits of a cloth laid together, in \d+\.\d s/).waitFor({ timeout: 60_000 });
    const laid = cloth.getByRole("table", { name: "All kits of each cloth laid together" });
    await laid.getByText(/3 suits, \d+ pieces/).first().waitFor();
    const plans = cloth.getByRole("link", { name: "Take the lay plans" });
    await plans.waitFor();
    const zip = await fetch(studio.url + (await plans.getAttribute("href")));
    assert.ok(Buffer.from(await zip.arrayBuffer()).toString("latin1").includes("lay-shell.pdf"));
    await item.getByRole("table", { name: "Shopping list for all together" }).getByText(/Laid together on one length/).first().waitFor();
    // The same page is looked at in every size by sound.mjs; here only when pictures are wanted.
    if (process.env.SHOTS) await sound(page, "class", "planned");
    await item.getByRole("button", { name: "Make the kits" }).click();
    await item.getByText(/, \d of 3: (draft|pattern|booklet|bag list)$/).first().waitFor();
    const take = item.getByRole("link", { name: "Take the kits" });
    await take.waitFor({ timeout: 120_000 });
    const got = await fetch(studio.url + (await take.getAttribute("href")));
    assert.equal(got.status, 200);
    const bytes = Buffer.from(await got.arrayBuffer());
    assert.equal(bytes.subarray(0, 2).toString(), "PK");
    const names = bytes.toString("latin1");
    for (const name of ["maren/bag-list.pdf", "odile/pattern-a4.pdf", "tove/suit.toml", "shopping-list.csv", "timetable.pdf", "lay-shell.pdf", "index.html"]) {
      assert.ok(names.includes(name), `${name} is not in the archive`);
    }
  }));

test("who cannot be drafted is told, and the work can be stopped", () =>
  journey(browser, { expects: [/status of 422/] }, async ({ studio, page }) => {
    await go(page, `${studio.url}/classes`);
    await page.getByRole("button", { name: "Plan a class" }).click();
    await page.getByRole("textbox", { name: "Name of the class" }).fill("One-pieces");
    await page.getByRole("button", { name: "Plan it" }).click();
    const item = page.locator(".shelflist > li").filter({ hasText: "One-pieces" });
    await item.getByRole("button").first().click();
    await item.getByText("Choose a design first.").waitFor();
    const { body: home } = await studio.get("/api/v1/home");
    const suit = home.suits.find((one) => one.id === "example-14");
    const { body: classes } = await studio.get("/api/v1/documents?kind=class");
    const own = classes.find((one) => one.body.name === "One-pieces");
    const set = (path, value, base) =>
      studio.post("/api/v1/edits", { parts: [{ document: own.id, base }], changes: [{ document: own.id, path, value }], words: "" });
    assert.ok(suit, "the example has its one-piece");
    assert.equal((await set("design_of", "example-14", own.revision)).status, 200);
    // A tick stands once the studio has kept it.
    await item.getByRole("checkbox", { name: "Maren" }).click({ force: true });
    await item.getByText("One person can sew it.").waitFor();
    await item.getByRole("checkbox", { name: "Bastian" }).click({ force: true });
    await item.getByText("One person can sew it, one cannot yet.").waitFor();
    await item.getByRole("list", { name: "What stands in the way" }).getByText(/man's one-piece is not drafted here/i).waitFor();
    await item.getByRole("button", { name: "Make the kits" }).click();
    await item.getByRole("button", { name: "Stop" }).click();
    await item.getByText("Stopped. Nothing half made was kept.").waitFor();
    assert.equal(await item.getByRole("link", { name: "Take the kits" }).count(), 0);
  }));

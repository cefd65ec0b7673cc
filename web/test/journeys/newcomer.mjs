/** From an empty line to a printed pattern, by the visible pages alone. */
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { change, choose, go, isKept, journey, openSection, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** An invented woman; what agrees with itself. Readings by the name the page asks for them. */
const READINGS = {
  stature: ["171"],
  "bust girth": ["92.0", "92.4"],
  "under-bust girth": ["78.5"],
  "waist girth": ["75.0", "75.6"],
  "hip girth": ["100"],
  "trunk circumference": ["158.0", "158.6"],
  "total crotch length": ["73.5"],
  "back waist length": ["41.5"],
  "front waist length": ["44.5"],
  "side neck to bust point": ["27.5"],
  "bust point width": ["18.5"],
};

/** Takes one dimension after the other, as the page asks for them, until nothing is asked. */
export async function takeAll(page, readings, { most = 40, folded = [] } = {}) {
  const hand = page.locator(".inhand");
  const taken = [];
  for (let n = 0; n < most; n += 1) {
    if (await page.getByRole("button", { name: "Open Wearer", exact: true }).count()) {
      folded.push(taken.at(-1));
      await openSection(page, "Wearer");
    }
    const name = (await hand.getByRole("heading", { level: 3 }).textContent()).trim();
    if (name === "Nothing to take") return taken;
    const wanted = Object.entries(readings).find(([key]) => key.toLowerCase() === name.toLowerCase())?.[1];
    if (!wanted) return taken;
    const count = taken.filter(([key]) => key === name).length;
    const heading = () => hand.getByRole("heading", { level: 3 }).textContent({ timeout: 300 });
    if (count >= wanted.length) {
      // What was typed last is still being kept: the next dimension comes when it is.
      await until(async () => assert.notEqual((await heading()).trim(), name, `${name} is asked a ${count + 1}. time`));
      continue;
    }
    const field = hand.getByRole("textbox", { name: new RegExp(`^${["First", "Second", "Third"][count]} reading`) });
    if (count === 0 && (await field.count()) === 0) return taken;
    await field.waitFor({ timeout: 5000 });
    const text = wanted[count];
    await field.fill(text);
    await field.press("Enter");
    taken.push([name, text]);
    await until(async () => {
      if (await page.getByRole("button", { name: "Open Wearer", exact: true }).count()) return;
      const now = (await hand.getByRole("heading", { level: 3 }).textContent({ timeout: 300 })).trim();
      const value = (await field.count()) === 0 ? "" : await field.inputValue({ timeout: 300 });
      assert.ok(now !== name || value === "", `${name}: ${text} is not kept`);
    });
  }
  throw new Error(`still asking after ${most} readings`);
}

test("a newcomer starts a suit, measures, tests two cloths, shapes it and prints the pattern", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, studio.url);
    // The example goes out in one step.
    await page.getByRole("button", { name: "Remove the example workroom" }).click();
    await page.getByRole("button", { name: "Yes, remove them" }).click();
    await page.getByText("Nothing hangs on the line yet.").waitFor();

    await page.getByRole("button", { name: "Start a suit" }).click();
    await page.getByRole("textbox", { name: "Name of the suit" }).fill("Runa’s first suit");
    await page.getByRole("button", { name: "Open its work order" }).click();
    await page.getByRole("heading", { level: 1, name: /Runa’s first suit/ }).waitFor();
    assert.match(page.url(), /\/suits\/[\w-]+$/);

    // The wearer, then how she is measured.
    const wearer = section(page, "Wearer");
    await wearer.getByRole("button", { name: "Add a wearer" }).click();
    await wearer.getByRole("textbox", { name: "Name" }).fill("Runa");
    await choose(wearer, "Body", "Woman");
    await wearer.getByRole("button", { name: "Add the wearer" }).click();
    await wearer.getByRole("heading", { level: 3, name: "Runa" }).waitFor();
    await wearer.getByRole("checkbox", { name: /She agrees/ }).check({ force: true }).catch(() => undefined);
    await until(async () => assert.ok(await wearer.getByRole("checkbox", { name: /She agrees/ }).isChecked()));
    await change(wearer, "Worn for it", "a thin swimsuit");
    await change(wearer, "Present", "Runa and Ilse");
    await change(wearer, "Taken by", "Ilse");
    await wearer.getByRole("button", { name: /, change Taken on$/ }).click();
    await wearer.getByLabel("Taken on").fill("2026-11-14");
    await wearer.getByLabel("Taken on").press("Enter");

    // Nothing is taken yet: the tape lies on a middling figure; hers is drawn as soon as it can be.
    const drawn = page.locator(".inhand figure").getByRole("img");
    const name = await drawn.getAttribute("aria-label");
    assert.match(name, /^A middling figure in section rings/);
    await page.locator(".inhand").getByText(/^A middling figure, to show where the tape goes\./).waitFor();
    await wearer.getByRole("list", { name: "Dimensions" }).getByRole("button", { name: /^(Missing: )?waist girth/i }).click();
    await page.locator(".inhand").getByRole("img", { name: "A middling figure in section rings, with the tape where the waist girth is taken." }).waitFor();
    await wearer.getByRole("list", { name: "Dimensions" }).getByRole("button").first().click();

    const folded = [];
    const taken = await takeAll(page, READINGS, { folded });
    const twice = (name) => taken.filter(([key]) => key.toLowerCase() === name).length;
    for (const name of Object.keys(READINGS)) assert.ok(twice(name) >= 1, `${name} was never asked; asked: ${taken.map(([key]) => key)}`);
    // Three are taken twice; the page asks for it itself.
    const unasked = ["bust girth", "waist girth", "trunk circumference"].filter((name) => twice(name) < 2);
    await openSection(page, "Wearer");
    for (const name of unasked) {
      await wearer.getByRole("list", { name: "Dimensions" }).getByRole("button", { name: new RegExp(`^${name}`, "i") }).click();
      const hand = page.locator(".inhand");
      await hand.getByRole("heading", { level: 3, name: new RegExp(`^${name}$`, "i") }).waitFor();
      const field = hand.getByRole("textbox", { name: /^Second reading/ });
      await field.fill(READINGS[name][1]);
      await field.press("Enter");
      await hand.getByRole("button", { name: /change the second reading/ }).waitFor();
    }
    await isKept(page);
    await page.locator(".inhand").getByRole("img", { name: /^The form in section rings/ }).waitFor();

    // Two cloths, each pulled both ways.
    const cloth = section(page, "Cloth");
    await openSection(page, "Cloth");
    await addCloth(cloth, "Shell", "Harbour tricot", [
      ["10", "19.4", "10.2"],
      ["10", "16.8", "10.2"],
    ]);
    await openSection(page, "Shape");
    const shape = section(page, "Shape");
    await choose(shape, "Lining", "Front");
    await openSection(page, "Cloth");
    await addCloth(cloth, "Lining", "Reed lining", [
      ["10", "18.6", "10.3"],
      ["10", "17.0", "10.3"],
    ]);

    await openSection(page, "Shape");
    await choose(shape, "Back", "Racer");
    await change(shape, "Strap", "4.2");
    await until(async () => assert.match(await shape.getByRole("button", { name: /, change Strap$/ }).textContent(), /4\.2/));
    assert.ok((await shape.getByRole("slider").count()) >= 3, "no handles on the pieces");

    await openSection(page, "Paper");
    const paper = section(page, "Paper");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      paper.getByRole("link", { name: "Pattern, A4" }).click(),
    ]);
    assert.match(download.suggestedFilename(), /^runa.*pattern-a4\.pdf$/);
    const bytes = await readFile(await download.path());
    assert.equal(bytes.subarray(0, 5).toString("latin1"), "%PDF-");
    assert.ok(bytes.length > 10_000, `${bytes.length} bytes`);

    // It hangs on the line, and can be found.
    await go(page, studio.url);
    await page.getByRole("searchbox").or(page.getByRole("textbox", { name: "Find a suit, wearer or cloth" })).first().fill("runa");
    await page.getByRole("link", { name: /Runa.*One-piece/i }).waitFor();
    assert.deepEqual(unasked, [], "a second reading of these was never asked");
    assert.deepEqual(folded, [], "the section folded while readings were still asked");
  }));

async function addCloth(cloth, role, name, pulls) {
  const layer = cloth.locator(".layer").filter({ has: cloth.page().getByRole("heading", { level: 3, name: role, exact: true }) });
  await layer.getByRole("button", { name: "Add a cloth" }).click();
  await cloth.getByRole("textbox", { name: "What you call it" }).fill(name);
  await cloth.getByRole("button", { name: "Add the cloth" }).click();
  await cloth.getByRole("heading", { level: 3, name, exact: true }).waitFor();
  const test = cloth.getByRole("button", { name: "Test the cloth" }).or(cloth.getByRole("button", { name: new RegExp(`^Test it ?: ${name}$`) }));
  await test.first().click();
  const group = cloth.getByRole("group", { name: `Testing ${name}` });
  for (const [i, readings] of pulls.entries()) {
    for (const [j, text] of readings.entries()) {
      await group.getByText(`Step ${i * 3 + j + 1} of 6`).waitFor();
      const field = group.getByRole("textbox", { name: ["Between the marks, at rest", "Pulled to", "Back to"][j] });
      await field.fill(text);
      await field.press("Enter");
    }
  }
  await group.waitFor({ state: "detached" });
}

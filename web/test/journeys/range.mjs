/**
 * A range: from a suit to its sizes; the chart in both units, the nest with a line for every size, files to take away, a size
 * for a wearer, the fewest sizes for several; a maker's own table with its faults by line and column; refusals with reasons.
 */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { choose, go, journey, section, sound } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** Ticks or unticks the sizes so that only these are drafted. */
async function only(page, names) {
  const group = page.getByRole("group", { name: "Sizes to draft" });
  for (const box of await group.getByRole("checkbox").all()) {
    const name = (await box.locator("xpath=..").innerText()).trim().split(/\s/)[0];
    await box.setChecked(names.includes(name), { force: true });
  }
}

async function draft(page) {
  await page.getByRole("button", { name: "Draft the sizes" }).click();
  await page.getByText("Done.", { exact: true }).waitFor();
}

test("a suit in five sizes, and whom they fit", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/example-14`);
    const paper = section(page, "Paper");
    const opens = page.getByRole("button", { name: "Open Paper", exact: true });
    if (await opens.count()) await opens.click();
    await paper.getByRole("link", { name: "In sizes" }).click();
    await page.getByRole("heading", { level: 1, name: "Ranges" }).waitFor();
    // The table that goes with her form is chosen already, and says where it comes from.
    await page.getByText(/Women by bust girth after EN 13402-3/).waitFor();
    const stature = page.getByRole("textbox", { name: /^Stature for every size/ });
    await stature.fill("168");
    await only(page, ["84", "88", "92", "96", "100"]);
    await draft(page);

    const chart = section(page, "Size chart");
    const body = chart.getByRole("table", { name: /^Body/ });
    await body.waitFor();
    assert.deepEqual(await body.getByRole("columnheader").allInnerTexts(), ["cm", "84", "88", "92", "96", "100"]);
    const bust = body.getByRole("row", { name: /^bust girth/ });
    assert.deepEqual(await bust.getByRole("cell").allInnerTexts(), ["84.0", "88.0", "92.0", "96.0", "100.0"]);
    // Table D of the printed classes says nothing of stature: hers stands in every size.
    assert.deepEqual(await body.getByRole("row", { name: /^stature/ }).getByRole("cell").allInnerTexts(), Array(5).fill("168.0"));
    await choose(chart, "Shown in", "inches and eighths");
    // 92 cm are 36.22 in: 36 1/4 to the nearest eighth.
    assert.equal((await bust.getByRole("cell").allInnerTexts())[2], "36¼");

    const nest = section(page, "Nest");
    const front = nest.getByRole("img", { name: /^front.*: cut lines of 84, 88, 92, 96, 100$/i }).first();
    await front.waitFor();
    const lines = await front.locator("path").evaluateAll((all) =>
      all.map((path) => `${path.getAttribute("stroke-dasharray")} ${path.getAttribute("stroke-width")}`),
    );
    assert.equal(new Set(lines).size, 5, "a line of its own for every size");
    await nest.getByRole("checkbox", { name: "88" }).setChecked(false, { force: true });
    await nest.getByRole("img", { name: /: cut lines of 84, 92, 96, 100$/ }).first().waitFor();
    await nest.getByRole("checkbox", { name: "88" }).setChecked(true, { force: true });

    await section(page, "Growth").getByText(/^From 92 to 96: .*92 has its waist widened/).waitFor();
    const files = page.getByRole("list", { name: "To take away" });
    for (const [name, starts] of [
      ["nest.pdf", "%PDF"],
      ["nest.svg", "<svg"],
      ["sizes.csv", "of,measure,unit,84,88,92,96,100"],
    ]) {
      const href = await files.getByRole("link", { name, exact: true }).getAttribute("href");
      const got = await fetch(studio.url + href);
      assert.equal(got.status, 200);
      const text = await got.text();
      assert.ok(text.slice(0, 200).includes(starts), `${name}: ${text.slice(0, 80)}`);
    }

    const one = section(page, "For one");
    await choose(one, "Wearer", "Maren");
    await one.getByText("Maren takes size 92.", { exact: true }).waitFor();
    const several = section(page, "For several");
    await several.getByRole("checkbox", { name: "Maren" }).setChecked(true, { force: true });
    await several.getByRole("checkbox", { name: "Odile" }).setChecked(true, { force: true });
    // A child is not offered women's sizes.
    assert.equal(await several.getByRole("checkbox", { name: "Ines" }).count(), 0);
    await several.getByRole("button", { name: "Find the fewest sizes" }).click();
    await several.getByText(/^(One size covers|\d sizes cover) \d of 2|^No size covers any of these 2/).waitFor();
    await sound(page, "range", "drafted");

    // A reload finds the range again.
    await page.reload();
    await section(page, "Size chart").waitFor();
  }));

test("a table of her own: faults by line and column, then sizes", () =>
  journey(browser, { expects: [/status of 422/] }, async ({ studio, page }) => {
    await go(page, `${studio.url}/`);
    await page.getByRole("link", { name: /Ranges/ }).click();
    await page.getByRole("heading", { level: 1, name: "Ranges" }).waitFor();
    await choose(page, "Cloth and design of", (await page.getByRole("radiogroup", { name: "Cloth and design of" }).getByRole("radio").first().innerText()).trim());
    await choose(page, "Size table", "my own");
    const bring = (text) =>
      page.locator('input[type="file"]').setInputFiles({ name: "club.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
    await bring("size,bust_cm,waste_cm,hip_cm\nS,84,68,92\nM,abc,76,100\n");
    await page.getByText(/Line 1, column 3, waste_cm\..*Did you mean .waist./).waitFor();
    await page.getByText(/Line 3, column 2, bust_cm\./).waitFor();
    await sound(page, "range", "faults");
    await bring("size,bust_cm,waist_cm,hip_cm,stature_cm\nS,84,68,92,164\nM,92,76,100,168\nL,100,84,108,170\n");
    await page.getByText("club: 3 sizes read.", { exact: true }).waitFor();
    await draft(page);
    await section(page, "Size chart").getByRole("columnheader", { name: "M", exact: true }).first().waitFor();
  }));

test("a table the design is not made for says why, and makes no files", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/ranges?suit=example-14&table=men`);
    await draft(page);
    await page.getByText(/^84, 88, 92.*man's one-piece is not drafted here/).waitFor();
    assert.equal(await page.getByRole("list", { name: "To take away" }).count(), 0);
    await sound(page, "range", "refused");
  }));

/** Sewing: the plan of this very suit, a choice of the shape that changes it, ticks, the elastic's marks, and the bench by keys. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { SIZES, axe, choose, drawn, frames, go, isKept, journey, openSection, section, sideways, tooSmall, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-14";
const order = async (studio) => (await studio.get(`/api/v1/suits/${SUIT}`)).body;

test("the plan is this suit's: steps with drawings, stitches, scraps; a choice of the shape changes it, ticks stay", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#sew`);
    await openSection(page, "Sew");
    const sew = section(page, "Sew");
    const { sew: plan } = await order(studio);

    // The step at hand is open by itself; a seam shows the pieces it joins.
    await sew.getByRole("group", { name: new RegExp(`^Step 1: `) }).waitFor();
    await sew.getByRole("button", { name: `All ${plan.steps.length} steps` }).click();
    const boxes = sew.locator(".workgroup input[type=checkbox]");
    assert.equal(await boxes.count(), plan.steps.length);
    const side = plan.steps.findIndex((step) => step.id === "join.side");
    await sew.getByRole("button", { name: new RegExp(`^Open step ${side + 1}:`) }).click();
    const opened = sew.getByRole("group", { name: `Step ${side + 1}: ${plan.steps[side].title}` });
    assert.ok((await opened.locator("svg .k-hot, svg path.k-hot").count()) >= 2, "the seam is not drawn on its pieces");
    assert.match(await opened.textContent(), /side up under the needle/);
    assert.match(await opened.textContent(), /min, practice/);

    // What each seam asks, and why.
    const stitches = sew.getByRole("table", { name: "Stitches" });
    assert.equal(await stitches.locator("tbody tr:not(.more)").count(), plan.stitches.length);
    await stitches.locator("button.why").first().click();
    await page.getByRole("group", { name: /^Why \d+ % asked for/ }).waitFor();
    await page.keyboard.press("Escape");
    const scraps = sew.getByRole("table", { name: "Scraps to sew first" });
    assert.equal(await scraps.locator("tbody tr").count(), plan.scraps.length);
    const link = await scraps.getByRole("link", { name: /^Write it down/ }).first().getAttribute("href");
    assert.match(link, new RegExp(`^/samples\\?for=${SUIT}&scrap=\\d+$`));
    assert.deepEqual(await axe(page), []);

    // A tick is kept, and taken back.
    await boxes.first().click();
    await isKept(page);
    await until(async () => assert.equal((await order(studio)).sew.steps[0].done, true));
    await page.getByRole("button", { name: "Back one" }).first().click();
    await until(async () => assert.equal((await order(studio)).sew.steps[0].done, false));
    await boxes.first().click();
    await until(async () => assert.equal((await order(studio)).sew.now, 1));

    // A skirt, and no lining: the order follows, and the tick stays.
    await openSection(page, "Shape");
    const shape = section(page, "Shape");
    const title = async (id) => (await order(studio)).sew.steps.find((step) => step.id === id)?.title;
    assert.equal(await title("join.skirt"), undefined);
    await choose(shape, "Skirt", "Flared panel");
    await until(async () => assert.ok(await sew.getByText(await title("join.skirt"), { exact: true }).count(), "no skirt to sew on"));
    const together = await title("join.together");
    assert.ok(await sew.getByText(together, { exact: true }).count());
    await choose(shape, "Lining", "None");
    await until(async () => assert.equal(await sew.getByText(together, { exact: true }).count(), 0));
    await until(async () => assert.ok(await boxes.first().isChecked(), "the tick is lost"));
  }));

test("the elastic map is a table too: every mark on the edge and on the elastic", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#sew`);
    await openSection(page, "Sew");
    const sew = section(page, "Sew");
    const { sew: plan } = await order(studio);
    for (const edge of plan.edges) {
      const table = sew.getByRole("table", { name: `Elastic of ${edge.name}`, exact: true });
      assert.equal(await table.getByRole("row").count(), edge.arcs.length + 1);
      for (const arc of edge.arcs) {
        const row = table.getByRole("row").filter({ has: page.getByRole("rowheader", { name: arc.letter, exact: true }) });
        assert.match(await row.textContent(), new RegExp(`${arc.name}.*${arc.elastic_mark.spoken.split(",")[0]}`));
      }
      const part = sew.locator(`#edge-${edge.key}`);
      assert.match(await part.textContent(), /Worn stretched/);
      await part.getByRole("button", { name: /^Marks in figures/ }).click();
      assert.ok(await part.locator(".maptable table").isVisible());
    }
    assert.deepEqual(await axe(page), []);
  }));

test("the bench goes through the steps by keys, sews one, and comes back to it", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const { sew: plan } = await order(studio);
    const at = plan.steps.findIndex((step) => step.id === "elastic.leg");
    await go(page, `${studio.url}/suits/${SUIT}/bench`);
    const heading = page.locator("main h1");
    assert.equal(await heading.textContent(), plan.steps[0].title);
    for (let i = 1; i <= at; i += 1) {
      await page.keyboard.press("ArrowRight");
      await until(async () => assert.equal(await heading.textContent(), plan.steps[i].title));
    }
    // The ruler stands at its step; Sewn is large; four settings and no more.
    await page.locator(".elasticmap.big svg").first().waitFor();
    const sewn = page.getByRole("button", { name: "Sewn", exact: true });
    assert.ok((await sewn.boundingBox()).height >= 88);
    assert.ok((await page.locator(".settings > div").count()) <= 4);
    assert.deepEqual(await axe(page), []);
    await page.keyboard.press("Enter");
    await until(async () => assert.equal((await order(studio)).sew.steps[at].done, true));
    await until(async () => assert.equal(await heading.textContent(), plan.steps[at + 1].title));
    await page.keyboard.press("ArrowLeft");
    await page.getByRole("button", { name: "Done; go on" }).waitFor();
    await page.reload();
    await drawn(page);
    assert.equal(await heading.textContent(), plan.steps[at].title);
    await page.keyboard.press("Escape");
    await page.waitForFunction(() => !location.pathname.endsWith("/bench"));
  }));

test("at every size: nothing cut off, no target too small", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#sew`);
    await openSection(page, "Sew");
    const sew = section(page, "Sew");
    await sew.getByRole("button", { name: /^All \d+ steps$/ }).click();
    await sew.locator(".reason summary").first().click();
    for (const { name, ...size } of SIZES) {
      await page.setViewportSize(size);
      await frames(page);
      assert.equal(await sideways(page), 0, name);
      assert.deepEqual(await tooSmall(page), [], name);
    }
    await go(page, `${studio.url}/suits/${SUIT}/bench#elastic.leg`);
    await page.locator(".elasticmap.big svg").first().waitFor();
    for (const { name, ...size } of SIZES) {
      await page.setViewportSize(size);
      await frames(page);
      assert.equal(await sideways(page), 0, `bench, ${name}`);
      assert.deepEqual(await tooSmall(page), [], `bench, ${name}`);
    }
  }));

/** The wardrobe: a style is chosen by its drawing and shaped by what it has for itself; a try-on's complaint becomes the next version. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { SIZES, axe, change, drawn, go, isKept, journey, openSection, section, sideways, tooSmall, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-14";
const design = async (studio) => (await studio.get(`/api/v1/documents/${SUIT}`)).body.body.design;

test("every style is drawn on this wearer; one is chosen by its drawing, shaped, and taken back", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#shape`);
    await openSection(page, "Shape");
    const shape = section(page, "Shape");
    await shape.getByRole("button", { name: "Other styles" }).click();
    const cards = shape.locator(".styles li");
    await until(async () => assert.ok((await cards.count()) >= 14, `${await cards.count()} styles`), 20_000);
    // Each is drawn, or says why it cannot be had.
    for (const card of await cards.all()) {
      const drawnParts = await card.locator("svg .cut path").count();
      const isRefused = await card.getByRole("button").isDisabled();
      assert.ok(drawnParts > 0 || isRefused, await card.textContent());
    }
    assert.equal(await shape.getByRole("button", { pressed: true, name: /^One-piece$/ }).count(), 1);
    assert.deepEqual(await axe(page), []);

    await shape.getByRole("button", { name: /^Tankini$/ }).click();
    await isKept(page);
    await until(async () => assert.equal((await design(studio)).style, "tankini"));
    await until(async () => assert.match(await shape.textContent(), /Tankini, /));
    // What the style has for itself stands among the numbers and words of the section.
    await change(shape, "Side slits", "5");
    await isKept(page);
    await until(async () => assert.ok(Object.keys(await design(studio)).includes("side_slit"), JSON.stringify(await design(studio))));

    await page.reload();
    await drawn(page);
    await openSection(page, "Shape");
    assert.match(await shape.textContent(), /Tankini, /);
    await shape.getByRole("button", { name: "Back one" }).click();
    await until(async () => assert.equal((await design(studio)).side_slit, undefined));
    await shape.getByRole("button", { name: "Back one" }).click();
    await until(async () => assert.equal((await design(studio)).style ?? "one-piece", "one-piece"));
  }));

test("a man and a child are offered their own styles, a child none with ties", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const offered = async (suit) => {
      const { body } = await studio.get(`/api/v1/suits/${suit}/styles`);
      return body.families.flatMap((family) => family.styles).filter((card) => card.refused === "").map((card) => card.key);
    };
    const man = await offered("example-17");
    assert.ok(man.includes("trunks") && man.includes("jammer") && !man.includes("one-piece"), man.join());
    const child = await offered("example-18");
    assert.ok(child.includes("sun-suit") && child.includes("two-piece"), child.join());
    for (const tied of ["triangle-top", "halter-top", "halter-one-piece", "side-tie"]) assert.ok(!child.includes(tied), tied);
    await go(page, `${studio.url}/suits/example-17#shape`);
    await openSection(page, "Shape");
    await section(page, "Shape").getByRole("button", { name: "Other styles" }).click();
    await section(page, "Shape").getByRole("heading", { name: "Trunks" }).waitFor();
  }));

for (const size of SIZES) {
  test(`the drawings of all styles on ${size.name}: nothing cut off, no target too small, no fault for ears`, () =>
    journey(browser, { width: size.width, height: size.height }, async ({ studio, page }) => {
      await go(page, `${studio.url}/suits/${SUIT}#shape`);
      await openSection(page, "Shape");
      const shape = section(page, "Shape");
      await shape.getByRole("button", { name: "Other styles" }).click();
      await until(async () => assert.ok((await shape.locator(".styles li svg").count()) >= 14), 20_000);
      assert.deepEqual(await axe(page), []);
      assert.equal(await sideways(page), 0);
      assert.deepEqual(await tooSmall(page), []);
    }));
}

test("what she says at the try-on is answered with changes and their reasons; the next version shows what measures otherwise", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#try-on`);
    await openSection(page, "Try-on");
    const tryOn = section(page, "Try-on");
    // The first version is cut; the note is about it.
    await tryOn.getByRole("button", { name: /^Make version 2/ }).click();
    await tryOn.getByRole("heading", { name: "Versions that were cut" }).waitFor();
    await tryOn.getByRole("button", { name: "Write a try-on note" }).click();
    await tryOn.getByRole("button", { name: "Straps dig in" }).click();
    const remedies = tryOn.getByRole("group", { name: "Straps dig in" });
    await remedies.getByRole("radio", { name: /Straps 8 mm wider/ }).check();
    assert.match(await remedies.textContent(), /pull on a wider strap|halves the pull/);
    assert.deepEqual(await axe(page), []);
    const before = (await design(studio)).strap_width;
    await tryOn.getByRole("button", { name: "Keep the note" }).click();
    await isKept(page);
    await until(async () => assert.notEqual((await design(studio)).strap_width, before));
    await until(async () => assert.match(await tryOn.textContent(), /“Straps dig in”/));
    assert.match(await tryOn.textContent(), /Straps 8 mm wider/);
    await until(async () => assert.match(await tryOn.getByRole("table", { name: /measures otherwise/ }).textContent(), /strap.*mm longer/s));
  }));

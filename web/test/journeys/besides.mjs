/** What a suit may have besides its shape: closure, blocks, corrections, room; a body not alike left and right. Each set, seen, taken back. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { SIZES, axe, change, choose, escaped, go, isKept, journey, openSection, section, sideways, tooSmall, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const MAREN = "example-14";
const INES = "example-18";

const body = async (studio, id) => (await studio.get(`/api/v1/documents/${id}`)).body.body;
const design = async (studio, suit = MAREN) => (await body(studio, suit)).design;
const order = async (studio, suit = MAREN) => (await studio.get(`/api/v1/suits/${suit}`)).body;

/** A group unfolded; its part of the page. */
async function unfold(page, name) {
  const group = page.locator("details.group", { hasText: new RegExp(`^${escaped(name)}`) });
  if ((await group.getAttribute("open")) === null) await group.locator("summary").click();
  await group.locator(".groupbody").waitFor();
  return group;
}

async function shapeOf(page, studio, suit = MAREN) {
  await go(page, `${studio.url}/suits/${suit}#shape`);
  await openSection(page, "Shape");
  return section(page, "Shape");
}

/** The cut line of a piece as it is drawn now. */
const outline = (shape, piece) => shape.locator(`svg[aria-label^="${piece},"] .k-cut`).first().getAttribute("d");

test("a zip opens the way in: chosen, measured, asked why, and taken back", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio);
    const closure = await unfold(shape, "Closure");
    const ring = async () => (await order(studio)).wear.way_in.find((one) => /neckline/i.test(one.opening)).share.main;
    const before = Number(await ring());
    await choose(closure, "Closure", "Zip");
    await until(async () => assert.equal((await design(studio)).closure.kind, "zip"));
    await change(closure, "Zip", "24");
    await isKept(page);
    await until(async () => assert.equal((await design(studio)).closure.length, "24 cm"));
    await until(async () => assert.ok(Number(await ring()) < before, `${await ring()} is not less than ${before}`));
    // The share stands beside the zip, and the zip beside the name of the group.
    const share = await ring();
    await until(async () => assert.match(await closure.textContent(), new RegExp(`Neckline[^%]*${escaped(share)} %`)));
    assert.match(await closure.locator("summary").textContent(), /zip, 24|zip 24|Closure zip/i);
    await closure.getByRole("button", { name: /^why\?.*Zip$/ }).click();
    await page.getByRole("group", { name: /^Why/ }).getByText(/2 × 24.0 cm/).waitFor();
    await page.keyboard.press("Escape");
    const front = async () => (await order(studio)).shape.pieces.find((piece) => piece.key === "front").cut;
    const onTheFold = await front();
    await choose(closure, "It sits", "In front");
    await until(async () => assert.notEqual(await front(), onTheFold));
    assert.deepEqual(await axe(page), []);
    for (let i = 0; i < 3; i += 1) {
      const { back } = await order(studio);
      await shape.getByRole("button", { name: "Back one" }).click();
      await until(async () => assert.notEqual((await order(studio)).back, back));
    }
    assert.equal((await design(studio)).closure?.kind, undefined);
  }));

test("a figure in words: full seat, exactly so much, redrawn at once, and back to what was taken", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio);
    const figure = await unfold(shape, "Corrections for her figure");
    const before = await outline(shape, "Back");
    for (const [name, word, key] of [
      ["Sway back", "Some", "sway_back"],
      ["Abdomen", "Full", "abdomen"],
      ["Shoulders", "Forward", "shoulder_forward"],
      ["Bust height", "Low", "bust_height"],
      ["Rise length", "Long", "rise_length"],
      ["Seat fullness", "Full", "seat"],
    ]) {
      await choose(figure, name, word);
      await until(async () => assert.ok((await design(studio)).figure[key], key));
    }
    await until(async () => assert.notEqual(await outline(shape, "Back"), before));
    const full = await outline(shape, "Back");
    await change(figure, "Seat fullness by", "1.6");
    await isKept(page);
    await until(async () => assert.notEqual(await outline(shape, "Back"), full));
    // Her own amount still stands under the word, and the group says what it moved.
    await figure.getByRole("radiogroup", { name: "Seat fullness" }).getByRole("radio", { name: "Full", checked: true }).waitFor();
    await figure.getByText(/1\.6\scm of the hip girth.*moved from front to back/).waitFor();
    await figure.getByRole("button", { name: /^why\?.*Seat fullness by$/ }).click();
    await page.getByRole("group", { name: /^What do/ }).waitFor();
    await page.keyboard.press("Escape");
    await choose(figure, "Seat fullness", "Flat");
    await until(async () => assert.match((await design(studio)).figure.seat, /^-/));
    await choose(figure, "Seat fullness", "As taken");
    await until(async () => assert.equal((await design(studio)).figure.seat, undefined));
    assert.match(await figure.locator("summary").textContent(), /sway back: some/i);
    // A sway back is a thing to look at: it stands in the margin.
    await shape.locator(".margin").getByText(/taken out of the centre back/).waitFor();
    assert.deepEqual(await axe(page), []);
  }));

test("blocks of a second outer cloth: chosen in Shape, their cloth in Cloth", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio);
    const blocks = await unfold(shape, "Colour blocks");
    await choose(blocks, "Blocks", "Chest band");
    await until(async () => assert.equal((await design(studio)).block_lines, "chest-band"));
    await until(async () => assert.ok((await order(studio)).shape.pieces.some((piece) => piece.layer === "contrast")));
    await change(blocks, "Band to", "0.7");
    await isKept(page);
    await blocks.getByRole("button", { name: "Choose the second cloth" }).click();
    const cloth = section(page, "Cloth");
    await cloth.getByText(/blocks are cut from the outer cloth until a second one is chosen/).waitFor();
    await cloth.getByRole("radiogroup", { name: "Cloth for the Second outer cloth" }).getByRole("radio", { name: "Kelp print" }).click();
    await until(async () => assert.equal((await body(studio, MAREN)).contrast, "example-kelp"));
    await until(async () => {
      const laid = (await order(studio)).lay.cloths.map((one) => one.name);
      assert.ok(laid.includes("Kelp print") && laid.includes("Slate tricot"), laid.join());
    });
    assert.deepEqual(await axe(page), []);
  }));

test("support, a prosthesis, a stoma, a large print: what each does is said, and drawn on the pieces", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio);
    const marks = async () => (await order(studio)).shape.pieces.reduce((n, piece) => n + piece.marks.length, 0);
    const pieces = async () => (await order(studio)).shape.pieces.map((piece) => piece.key);

    const support = await unfold(shape, "Support");
    await choose(support, "Shelf bra", "Yes");
    await until(async () => assert.equal((await design(studio)).shelf_bra, true));
    await choose(support, "Shelf bra", "No");
    await choose(support, "Cups", "Marks");
    await choose(support, "Cups on", "The wearer's left");
    await until(async () => assert.equal((await design(studio)).cup_side, "left"));
    await choose(support, "Cups", "None");

    const care = await unfold(shape, "Prosthesis and stoma");
    const plain = await pieces();
    await choose(care, "Prosthesis pocket", "The wearer's left");
    await until(async () => assert.ok((await pieces()).length > plain.length, (await pieces()).join()));
    await choose(care, "Stoma", "The wearer's right");
    await change(care, "Stoma below the waist", "5");
    await isKept(page);
    await until(async () => assert.equal((await design(studio)).stoma_below_waist, "5 cm"));
    await until(async () => assert.equal((await order(studio)).shape.head.summary === "Not drafted yet.", false));

    const print = await unfold(shape, "A large print");
    const before = await marks();
    await change(print, "Repeat of a large print", "32");
    await isKept(page);
    await until(async () => assert.ok((await marks()) > before, `${await marks()} marks`));
    assert.deepEqual(await axe(page), []);
  }));

test("room over a belly: refused with a firm fit, then drawn with its caution", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio);
    const mother = await unfold(shape, "Pregnancy and nursing");
    await mother.getByText(/ask midwife or doctor/).waitFor();
    await choose(mother, "Belly", "Second trimester");
    // Maren’s suit is firm, for laps: the draft says no, and why.
    await shape.getByText(/no firm fit over a belly/i).first().waitFor();
    await choose(shape, "Fit", "Regular");
    await until(async () => assert.ok((await order(studio)).shape.pieces.length > 0));
    await shape.locator(".margin").getByText(/ask midwife or doctor/i).first().waitFor();
    assert.match(await mother.locator("summary").textContent(), /second trimester/);
    assert.deepEqual(await axe(page), []);
  }));

test("room to grow for a child; nothing a child cannot have", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const shape = await shapeOf(page, studio, INES);
    const groups = await shape.locator("details.group .groupname").allInnerTexts();
    assert.ok(groups.includes("Room to grow") && !groups.includes("Pregnancy and nursing"), groups.join());
    const growth = await unfold(shape, "Room to grow");
    await choose(growth, "Room to grow", "Half a year");
    await isKept(page);
    await until(async () => assert.ok((await design(studio, INES)).growth));
    await growth.getByText(/to grow round the trunk/).waitFor();
    assert.deepEqual(await axe(page), []);
    // A man’s brief has neither bust nor belly, and no closure.
    await shapeOf(page, studio, "example-17");
    const his = await section(page, "Shape").locator("details.group .groupname").allInnerTexts();
    for (const name of ["Support", "Closure", "Room to grow", "Pregnancy and nursing"]) assert.ok(!his.includes(name), his.join());
    assert.ok(his.some((name) => /^Corrections/.test(name)), his.join());
  }));

test("left and right differ: written beside the left, drafted as two", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${MAREN}#wearer`);
    await openSection(page, "Wearer");
    const wearer = section(page, "Wearer");
    const sides = await unfold(wearer, "Left and right differ");
    await sides.getByText(/^Write the right side/).waitFor();
    const left = (await order(studio)).wearer.sided.find((one) => one.right.path === "right.side_length").left;
    await change(sides, "Right side length", String(Number(left.main) - 1));
    await isKept(page);
    await until(async () => assert.ok((await body(studio, "example-maren")).right.side_length));
    assert.match(await sides.locator("summary").textContent(), /side length/i);
    assert.deepEqual(await axe(page), []);
    // Her racer back draws its centre from the sides: the draft says so, and another back is drawn uneven.
    await openSection(page, "Shape");
    const shape = section(page, "Shape");
    await shape.getByText(/left and right do not meet at the centre/).first().waitFor();
    await choose(shape, "Back", "Scoop");
    const front = async () => (await order(studio)).shape.pieces.find((piece) => piece.key === "front");
    await until(async () => assert.equal((await front()).fold_line, null));
    await shape.locator('svg[aria-label^="Front,"]').waitFor();
    // Emptied, both sides are alike again, and the front lies on its fold.
    await change(sides, "Right side length", "");
    await until(async () => assert.notEqual((await front()).fold_line, null));
  }));

for (const size of SIZES) {
  test(`every group unfolded on ${size.name}: nothing cut off, no target too small, no fault for ears`, () =>
    journey(browser, { width: size.width, height: size.height }, async ({ studio, page }) => {
      await shapeOf(page, studio);
      for (const name of await section(page, "Shape").locator("details.group .groupname").allInnerTexts()) await unfold(section(page, "Shape"), name);
      await choose(section(page, "Shape"), "Closure", "Zip");
      await choose(section(page, "Shape"), "Seat fullness", "Full");
      await section(page, "Shape").getByRole("button", { name: /change Seat fullness by$/ }).waitFor();
      assert.deepEqual(await axe(page), []);
      assert.equal(await sideways(page), 0);
      assert.deepEqual(await tooSmall(page), []);
    }));
}

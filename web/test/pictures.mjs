/**
 * Takes the pictures of the studio in `docs/pictures`: every page and its most telling states, at three sizes, by day and by night.
 *
 *   SLACKWATER=target/debug/slackwater node web/test/pictures.mjs [FOLDER [NAME,NAME...|all [SIZE-LIGHT]]]
 *
 * Each picture is one screenful, so that it stays small; the order comes section by section. Where `pngquant` is installed it makes them
 * smaller still. Pictures of a name that is no longer in the list are deleted when all are taken.
 */
import { spawnSync } from "node:child_process";
import { mkdir, readdir, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { browse } from "./harness.mjs";
import { SECTIONS, change, choose, frames, go, openAll, openSection, openStudio, openWindow, section } from "./kit.mjs";

const MOST_BYTES = 250_000;
const folder = process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), "../../docs/pictures");

/** Names of the pages wanted; all of them when none is named. */
const only = process.argv[3] === "all" ? null : (process.argv[3]?.split(",") ?? null);
/** One of `desktop-day` to `phone-night`, for several of these to run side by side; all of them when none is named. */
const onlyEnd = process.argv[4] ?? null;
const isWanted = ({ name }) => only === null || only.includes(name);

const sizes = [
  { name: "desktop", width: 1440, height: 900 },
  { name: "tablet", width: 1024, height: 768 },
  { name: "phone", width: 390, height: 844 },
];

/** What a page of `few` is taken in: its other forms tell nothing new. */
const FEW = ["desktop-day", "phone-night"];

/** `of` names the studio it is taken in, `example` when none is named; `path` may need what [prepare] made. */
const pages = [
  { name: "home", path: "/" },
  { name: "bench", path: "/suits/example-14/bench#elastic.leg" },
  { name: "projector", path: "/suits/example-14/projector" },
  { name: "shopping", path: "/suits/example-14/shopping" },
  { name: "booklet", path: "/suits/example-14/booklet" },
  { name: "wearer", path: "/wearers/example-maren" },
  { name: "cloth", path: "/cloths/example-slate" },
  { name: "elastic", path: "/elastics/example-rubber" },
  { name: "samples", path: "/samples" },
  { name: "drawer", path: "/drawer" },
  { name: "drawer-sheet", path: ({ pattern }) => `/drawer/${pattern}/sheet` },
  { name: "ranges", path: "/ranges?suit=example-14" },
  { name: "workroom", path: "/workroom" },
  { name: "classes", path: "/classes" },
  { name: "pair", few: true, path: "/pair" },
  { name: "nowhere", few: true, path: "/no/such/page" },
  { name: "empty-home", few: true, of: "bare", path: "/" },
  { name: "empty-order", few: true, of: "begun", path: ({ blank }) => `/suits/${blank}` },
  { name: "empty-samples", few: true, of: "bare", path: "/samples" },
  { name: "empty-drawer", few: true, of: "bare", path: "/drawer" },
  { name: "empty-classes", few: true, of: "bare", path: "/classes" },
  { name: "empty-workroom", few: true, of: "bare", path: "/workroom" },
];

/** States a page has to be brought into; `back` takes back so many edits of suit 14, `after` what else was begun. */
const states = [
  {
    name: "home-cloths",
    few: true,
    path: "/",
    bring: (page) => top(section(page, "Cloths")),
  },
  {
    name: "history",
    few: true,
    path: "/suits/example-14",
    bring: async (page) => {
      await openSection(page, "Shape");
      await change(section(page, "Shape"), "Strap", "4.0");
      await page.getByRole("button", { name: "History" }).click();
      await page.getByRole("list", { name: "History, the newest first" }).waitFor();
      await page.evaluate(() => scrollTo(0, 0));
    },
    back: 1,
  },
  {
    name: "keys",
    few: true,
    path: "/suits/example-14",
    bring: async (page) => {
      await page.keyboard.press("?");
      await page.getByRole("heading", { name: "Keys" }).waitFor();
    },
  },
  {
    name: "tape",
    few: true,
    path: "/",
    bring: async (page) => {
      await page.getByRole("button", { name: "Make the tape true" }).click();
      await page.getByRole("img", { name: "Outline of a bank card" }).waitFor();
    },
  },
  {
    name: "swatch-test",
    few: true,
    path: "/suits/example-14#cloth",
    bring: async (page) => {
      await openSection(page, "Cloth");
      await section(page, "Cloth").getByRole("button", { name: /^Test it again ?: Slate/ }).click();
      const test = page.getByRole("group", { name: /^Testing/ });
      await test.waitFor();
      await top(section(page, "Cloth"));
    },
  },
  {
    name: "styles",
    path: "/suits/example-14#shape",
    bring: async (page) => {
      await openSection(page, "Shape");
      const shape = section(page, "Shape");
      await shape.getByRole("button", { name: "Other styles" }).click();
      await shape.locator(".styles li svg").nth(8).waitFor();
      await top(shape.locator(".styleline"));
    },
  },
  {
    name: "besides",
    few: true,
    path: "/suits/example-14#shape",
    bring: async (page) => {
      await openSection(page, "Shape");
      const shape = section(page, "Shape");
      for (const group of await shape.locator("details.group summary").all()) await group.click();
      await top(shape.locator(".besides"));
    },
  },
  {
    name: "besides-figure",
    path: "/suits/example-14#shape",
    bring: async (page) => {
      await openSection(page, "Shape");
      const shape = section(page, "Shape");
      const group = shape.locator("details.group", { hasText: "Corrections for her figure" });
      await group.locator("summary").click();
      await choose(group, "Seat fullness", "Full");
      await group.getByRole("button", { name: /change Seat fullness by$/ }).waitFor();
      await top(group);
    },
    back: 1,
  },
  {
    name: "sides",
    few: true,
    path: "/suits/example-14#wearer",
    bring: async (page) => {
      await openSection(page, "Wearer");
      const group = section(page, "Wearer").locator("details.group");
      await group.locator("summary").click();
      await top(group);
    },
  },
  {
    name: "why",
    path: "/suits/example-14#wear",
    bring: async (page) => {
      await openSection(page, "Wear");
      const wear = section(page, "Wear");
      // What was put on already folds the quick ladder away.
      await wear.locator("#wear-fitted").waitFor();
      const quick = wear.getByText("The quick judgement, level by level");
      if (await quick.count()) await quick.click();
      await wear.locator(".rung").last().locator("button.why").click();
      await page.getByRole("group", { name: /^Why/ }).waitFor();
      await top(wear);
    },
  },
  {
    name: "complaints",
    path: "/suits/example-14#try-on",
    bring: async (page) => {
      await openSection(page, "Try-on");
      const tryOn = section(page, "Try-on");
      await tryOn.getByRole("button", { name: "Write a try-on note" }).click();
      await tryOn.getByRole("button", { name: "Straps dig in" }).click();
      await top(tryOn.getByRole("group", { name: "Straps dig in" }));
    },
  },
  {
    name: "fitted",
    path: "/suits/example-14#wear",
    bring: async (page) => {
      await top(await fitted(page));
    },
  },
  {
    name: "better",
    path: "/suits/example-14#wear",
    bring: async (page) => {
      const part = await fitted(page);
      const look = part.getByRole("button", { name: "Look for a better draft" });
      if (await look.count()) await look.click();
      const compared = part.getByRole("group", { name: "Before and after" });
      await compared.waitFor({ timeout: 240_000 });
      await top(part.locator(".better"));
    },
  },
  {
    name: "lay-packing",
    path: "/suits/example-15#lay",
    bring: async (page) => {
      await openSection(page, "Lay");
      const shell = section(page, "Lay").locator(".laid").first();
      await shell.getByRole("button", { name: /^Pack it/ }).click();
      await shell.locator(".progress").waitFor();
      await top(shell);
    },
    after: async (page) => {
      const shell = section(page, "Lay").locator(".laid").first();
      const stop = shell.getByRole("button", { name: "Stop" });
      if (await stop.count()) await stop.click();
      await shell.getByText(/^(Packed and kept|Stopped)/).waitFor({ timeout: 60_000 });
      const back = page.getByRole("button", { name: /^Back one: packed/ }).first();
      if (await back.count()) {
        await back.click();
        await back.waitFor({ state: "detached" });
      }
    },
  },
  {
    name: "bench-seam",
    few: true,
    path: "/suits/example-14/bench",
    bring: async (page) => {
      for (let i = 0; i < 30 && (await page.locator(".hands svg").count()) < 2; i += 1) {
        await page.keyboard.press("ArrowRight");
        await frames(page);
      }
    },
  },
  {
    name: "quote",
    few: true,
    path: "/suits/example-14/shopping",
    bring: (page) => top(section(page, "Quote")),
  },
  {
    name: "sample",
    few: true,
    path: "/samples",
    bring: async (page) => {
      await page.locator(".shelfitem").first().getByRole("button").first().click();
      await top(page.locator(".shelfitem").first());
    },
  },
  {
    name: "stock",
    few: true,
    path: "/workroom",
    bring: (page) => top(section(page, "Stock")),
  },
  {
    name: "class",
    few: true,
    path: "/classes",
    bring: async (page) => {
      await opened(page);
      await top(page.locator(".shelfitem").first());
    },
  },
  {
    name: "class-timetable",
    path: "/classes",
    bring: async (page) => {
      await opened(page);
      await top(page.getByRole("heading", { name: "Timetable" }));
    },
  },
  {
    name: "drawer-suit",
    path: ({ suit }) => `/drawer/${suit}`,
    bring: async (page) => {
      await page.getByRole("list", { name: "Measures" }).getByRole("button", { name: /Width across the waist/ }).click();
      await top(section(page, "Measures"));
    },
  },
  {
    name: "drawer-copy",
    few: true,
    path: ({ suit }) => `/drawer/${suit}`,
    bring: async (page) => {
      const copy = section(page, "The copy");
      await copy.getByRole("group", { name: /^In doubt/ }).first().waitFor({ timeout: 60_000 });
      await top(copy);
    },
  },
  {
    name: "drawer-pattern",
    path: ({ pattern }) => `/drawer/${pattern}`,
    bring: async (page) => {
      const sheet = section(page, "Change sheet");
      await sheet.getByRole("link", { name: "Print the sheet" }).waitFor({ timeout: 60_000 });
      await top(sheet);
    },
  },
  {
    name: "range-made",
    path: "/ranges?suit=example-14",
    bring: async (page) => {
      await page.getByRole("button", { name: /^Draft/ }).click();
      await section(page, "Size chart").waitFor({ timeout: 60_000 });
      await top(section(page, "Nest"));
    },
  },
];

/** The suit put on its form; what the studio has of it already is shown at once. */
async function fitted(page) {
  await openSection(page, "Wear");
  const part = section(page, "Wear").locator("#wear-fitted");
  await part.waitFor();
  const put = part.getByRole("button", { name: "Put it on the form" });
  const ladder = part.getByRole("group", { name: "Solved stretch ladder" });
  await put.or(ladder).first().waitFor();
  if (await put.count()) await put.click();
  await ladder.waitFor({ timeout: 240_000 });
  return part;
}

/** The example's class unfolded and worked out. */
async function opened(page) {
  await page.locator(".shelfitem").first().getByRole("button").first().click();
  await page.locator(".classplan").waitFor({ timeout: 60_000 });
}

function top(locator) {
  return locator.evaluate((element) => element.scrollIntoView({ block: "start" }));
}

/** Measures of the finished suit 14, as the drawer calls them; one of them with a slip of the tape, so that something is in doubt. */
const FLAT = {
  "across the bust, side seam to side seam": ["across_bust", 0],
  "across the waist, side seam to side seam": ["across_waist", 3],
  "across, 2 cm above the leg at the side": ["across_above_leg", 0],
  "side seam, leg to underarm": ["side_seam", 0],
  "centre front, neckline to crotch seam": ["centre_front", 0],
  "centre back, top to crotch seam": ["centre_back", 0],
  "leg opening, once round": ["leg_opening", 0],
  "strap, edge to edge at the shoulder": ["strap_width", 0],
  "armhole, once round": ["armhole", 0],
  "neckline and back, once round": ["neckline", 0],
};

/** What the example leaves unmeasured is measured: a favourite suit, and a bought pattern near what Maren's own draft would cut. */
async function prepare(studio) {
  const put = async (body) => {
    const made = await studio.post("/api/v1/documents", { kind: "drawer", body, words: "" });
    if (made.status >= 300) throw new Error(JSON.stringify(made.body));
    return made.body.id;
  };
  const { finished } = (await studio.get("/api/v1/suits/example-14")).body.shape;
  const measures = {};
  for (const { name, value } of finished) {
    const [key, slip] = FLAT[name] ?? [null, 0];
    const cm = value.unit === "mm" ? Number(value.main) / 10 : Number(value.main);
    if (key !== null) measures[key] = `${(cm + slip).toFixed(1)} cm`;
  }
  const suit = await put({
    name: "The one that never rides up",
    of: "suit",
    wearer: "example-maren",
    old: { from: "swatch", swatch: "example-slate" },
    new: { from: "swatch", swatch: "example-kelp" },
    shapes: { back: "racer", seat: "full" },
    measures,
  });
  const { dimensions } = (await studio.get("/api/v1/wearers/example-maren")).body;
  const cm = (key) => Number.parseFloat(dimensions.find((one) => one.key === key).value.main);
  const pattern = await put({
    name: "From the market",
    of: "pattern",
    wearer: "example-maren",
    size: "12",
    stretch_asked: "75",
    new: { from: "swatch", swatch: "example-slate" },
    widths: {
      bust: `${(cm("bust_girth") / 1.153 / 4 - 0.5).toFixed(1)} cm`,
      waist: `${(cm("waist_girth") / 1.12 / 4 - 0.4).toFixed(1)} cm`,
      high_hip: `${(cm("high_hip_girth") / 1.153 / 4 - 0.2).toFixed(1)} cm`,
    },
    lengths: { trunk_loop: `${(cm("trunk_circumference") / 1.06 - 1.8).toFixed(1)} cm` },
    sizes: { s1: { name: "14", widths: { bust: `${(cm("bust_girth") / 1.153 / 4).toFixed(1)} cm` } } },
  });
  return { suit, pattern };
}

/** A suit of which nothing is known yet. */
async function begin(studio) {
  const { body } = await studio.post("/api/v1/suits", { name: "For the spring", wearer: null, like: null });
  return { blank: body.id };
}

await mkdir(folder, { recursive: true });
const browser = await browse();
const studio = await openStudio();
/** Without the example: nothing at all in the one, a suit just begun in the other. */
const bare = await openStudio();
const begun = await openStudio();
for (const one of [bare, begun]) await one.remove("/api/v1/example");
const made = { ...(await prepare(studio)), ...(await begin(begun)) };
const studios = { bare, begun };
const hasQuant = spawnSync("pngquant", ["--version"]).status === 0;
const taken = new Set();
let large = 0;

const address = ({ path, of }) => (studios[of] ?? studio).url + (typeof path === "function" ? path(made) : path);

async function shoot(page, name) {
  const file = `studio-${name}.png`;
  const path = join(folder, file);
  // Where the hand was last is no part of the page.
  await page.mouse.move(1, 1);
  await frames(page);
  await page.screenshot({ path });
  taken.add(file);
  if (hasQuant) spawnSync("pngquant", ["--force", "--skip-if-larger", "--strip", "--speed", "1", "--output", path, "128", path]);
  const { size } = await stat(path);
  if (size > MOST_BYTES) {
    large += 1;
    console.error(`${name}: ${size} bytes`);
  }
}

try {
  for (const size of sizes) {
    for (const night of [false, true]) {
      const end = `${size.name}-${night ? "night" : "day"}`;
      if (onlyEnd !== null && onlyEnd !== end) continue;
      const isIn = (one) => isWanted(one) && (!one.few || FEW.includes(end));
      const view = await openWindow(browser, { ...size, night, origins: [studio.url, bare.url, begun.url] });
      const { page } = view;
      for (const one of pages.filter(isIn)) {
        await go(page, address(one));
        await view.settled();
        await shoot(page, `${one.name}-${end}`);
      }
      for (const one of states.filter(isIn)) {
        // The same address again, but for its hash, would leave the page as it is.
        await page.goto("about:blank");
        await go(page, address(one));
        await one.bring(page);
        // A job that goes on is never settled.
        if (one.after === undefined) await view.settled();
        await shoot(page, `${one.name}-${end}`);
        await one.after?.(page);
        for (let i = 0; i < (one.back ?? 0); i += 1) await studio.post("/api/v1/suits/example-14/back", {});
      }
      if (!isWanted({ name: "order" })) {
        await view.close();
        continue;
      }
      await go(page, `${studio.url}/suits/example-14`);
      await openAll(page);
      await view.settled();
      await page.evaluate(() => scrollTo(0, 0));
      await shoot(page, `order-${end}`);
      for (const name of SECTIONS) {
        const id = name.toLowerCase();
        await page.evaluate((at) => document.getElementById(at)?.scrollIntoView({ block: "start" }), id);
        // The drawings take their size from the window once they are in it.
        await frames(page);
        await shoot(page, `order-${id}-${end}`);
      }
      await view.close();
    }
  }
  if (only === null && onlyEnd === null) {
    for (const file of await readdir(folder)) {
      if (/^studio-.*\.png$/.test(file) && !taken.has(file)) await rm(join(folder, file));
    }
  }
} finally {
  await browser.close();
  await studio.close();
  await bare.close();
  await begun.close();
}
if (large > 0) {
  console.error(`${large} pictures are larger than ${MOST_BYTES} bytes`);
  process.exitCode = 1;
}

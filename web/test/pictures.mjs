/**
 * Takes the pictures of the studio in `docs/pictures`: every page, at three sizes, by day and by night.
 *
 *   SLACKWATER=target/debug/slackwater node web/test/pictures.mjs [FOLDER [NAME,NAME...]]
 *
 * Each picture is one screenful, so that it stays small; the order comes section by section.
 */
import { mkdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { browse } from "./harness.mjs";
import { SECTIONS, choose, frames, go, openAll, openSection, openStudio, openWindow, section } from "./kit.mjs";

const MOST_BYTES = 250_000;
const folder = process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), "../../docs/pictures");

/** Names of the pages wanted; all of them when none is named. */
const only = process.argv[3]?.split(",") ?? null;
const isWanted = ({ name }) => only === null || only.includes(name);

const sizes = [
  { name: "desktop", width: 1440, height: 900 },
  { name: "tablet", width: 1024, height: 768 },
  { name: "phone", width: 390, height: 844 },
];
const pages = [
  { name: "home", path: "/" },
  { name: "bench", path: "/suits/example-14/bench#elastic.leg" },
  { name: "projector", path: "/suits/example-14/projector" },
  { name: "wearer", path: "/wearers/example-maren" },
  { name: "cloth", path: "/cloths/example-slate" },
  { name: "elastic", path: "/elastics/example-rubber" },
  { name: "samples", path: "/samples" },
  { name: "drawer", path: "/drawer" },
  { name: "drawer-suit", path: "/drawer/example-drawer-1" },
  { name: "drawer-pattern", path: "/drawer/example-drawer-2" },
  { name: "drawer-sheet", path: "/drawer/example-drawer-2/sheet" },
  { name: "ranges", path: "/ranges?suit=example-14" },
  { name: "workroom", path: "/workroom" },
  { name: "classes", path: "/classes" },
];

/** States a page has to be brought into; what is kept on the way is taken back. */
const states = [
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
    path: "/suits/example-14#wearer",
    bring: async (page) => {
      await openSection(page, "Wearer");
      const group = section(page, "Wearer").locator("details.group");
      await group.locator("summary").click();
      await top(group);
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
      await compared.waitFor({ timeout: 90_000 });
      await top(part.locator(".better"));
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
  await ladder.waitFor({ timeout: 90_000 });
  return part;
}

function top(locator) {
  return locator.evaluate((element) => element.scrollIntoView({ block: "start" }));
}

await mkdir(folder, { recursive: true });
const browser = await browse();
const studio = await openStudio();
let large = 0;

async function shoot(page, name) {
  const path = join(folder, `studio-${name}.png`);
  await page.screenshot({ path });
  const { size } = await stat(path);
  if (size > MOST_BYTES) {
    large += 1;
    console.error(`${name}: ${size} bytes`);
  }
}

try {
  for (const size of sizes) {
    for (const night of [false, true]) {
      const view = await openWindow(browser, { ...size, night, origins: [studio.url] });
      const { page } = view;
      const end = `${size.name}-${night ? "night" : "day"}`;
      for (const { name, path } of pages.filter(isWanted)) {
        await go(page, studio.url + path);
        await view.settled();
        await shoot(page, `${name}-${end}`);
      }
      for (const { name, path, bring, back = 0 } of states.filter(isWanted)) {
        // The same address again, but for its hash, would leave the page as it is.
        await page.goto("about:blank");
        await go(page, studio.url + path);
        await bring(page);
        await view.settled();
        await frames(page);
        await shoot(page, `${name}-${end}`);
        for (let i = 0; i < back; i += 1) await studio.post("/api/v1/suits/example-14/back", {});
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
} finally {
  await browser.close();
  await studio.close();
}
if (large > 0) {
  console.error(`${large} pictures are larger than ${MOST_BYTES} bytes`);
  process.exitCode = 1;
}

/**
 * Takes the pictures of the studio in `docs/pictures`: every page, at three sizes, by day and by night.
 *
 *   SLACKWATER=target/debug/slackwater node web/test/pictures.mjs [FOLDER]
 *
 * Each picture is one screenful, so that it stays small; the order comes section by section.
 */
import { mkdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { browse } from "./harness.mjs";
import { SECTIONS, frames, go, openAll, openStudio, openWindow } from "./kit.mjs";

const MOST_BYTES = 250_000;
const folder = process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), "../../docs/pictures");

const sizes = [
  { name: "desktop", width: 1440, height: 900 },
  { name: "tablet", width: 1024, height: 768 },
  { name: "phone", width: 390, height: 844 },
];
const pages = [
  { name: "home", path: "/" },
  { name: "bench", path: "/suits/example-14/bench" },
  { name: "projector", path: "/suits/example-14/projector" },
  { name: "wearer", path: "/wearers/example-maren" },
  { name: "cloth", path: "/cloths/example-slate" },
  { name: "elastic", path: "/elastics/example-rubber" },
  { name: "samples", path: "/samples" },
  { name: "drawer", path: "/drawer" },
  { name: "workroom", path: "/workroom" },
  { name: "classes", path: "/classes" },
];

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
      for (const { name, path } of pages) {
        await go(page, studio.url + path);
        await view.settled();
        await shoot(page, `${name}-${end}`);
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

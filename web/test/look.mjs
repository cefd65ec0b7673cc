/**
 * Takes pictures of a page: `node test/look.mjs URL FOLDER [name]` at the three widths, day and night, and at 200 %.
 * For the eye; `run.mjs` does the checking.
 */
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { browse, shots } from "./harness.mjs";

const [url, folder, name = "page"] = process.argv.slice(2);
if (!url || !folder) {
  console.error("node test/look.mjs URL FOLDER [NAME]");
  process.exit(2);
}
await mkdir(folder, { recursive: true });
const browser = await browse();
try {
  for (const shot of shots) {
    const { page, faults } = await shot.open(browser, url);
    await page.screenshot({ path: join(folder, `${name}-${shot.name}.png`), fullPage: true });
    for (const fault of faults) console.error(`${shot.name}: ${fault}`);
    await page.context().close();
  }
} finally {
  await browser.close();
}

/**
 * How fast a handle follows the hand, and how often a long job tells where it is. Prints a table; judges nothing.
 *
 *   SLACKWATER=target/release/slackwater node web/test/latency.mjs
 *
 * A handle is dragged by 60 moves, as far and back; the page leaves a measure `handle-request` for each answer it drew: from
 * the request to the pieces in the page. Moves that come faster than the studio answers are passed over by the page.
 */
import { browse } from "./harness.mjs";
import { go, openSection, openStudio, openWindow, pause, section } from "./kit.mjs";

const MOVES = 60;

function spread(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
  return { median: at(0.5), most: at(0.95), max: sorted.at(-1) ?? Number.NaN };
}

const browser = await browse();
const studio = await openStudio();
const rows = [];
try {
  for (const suit of ["example-14", "example-15"]) {
    const view = await openWindow(browser, { origins: [studio.url] });
    const { page } = view;
    await go(page, `${studio.url}/suits/${suit}#shape`);
    await openSection(page, "Shape");
    const handles = await section(page, "Shape").getByRole("slider").all();
    for (const handle of handles) {
      await handle.scrollIntoViewIfNeeded();
      const key = (await handle.getAttribute("id")).replace("handle-", "");
      const ring = await handle.locator(".ring").boundingBox();
      const [x, y] = [ring.x + ring.width / 2, ring.y + ring.height / 2];
      await page.evaluate(() => performance.clearMeasures("handle-request"));
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let n = 1; n <= MOVES; n += 1) {
        const by = (n <= MOVES / 2 ? n : MOVES - n) * 0.8;
        await page.mouse.move(x + by, y + by);
        await pause(16);
      }
      await pause(400);
      await page.keyboard.press("Escape");
      await page.mouse.up();
      const took = await page.evaluate(() => performance.getEntriesByName("handle-request").map((entry) => entry.duration));
      const { median, most, max } = spread(took);
      const ms = (value) => `${value.toFixed(0)} ms`;
      rows.push({ suit, handle: key, moves: MOVES, drawn: took.length, median: ms(median), "95 %": ms(most), max: ms(max) });
      await pause(100);
    }
    await view.context.close();
  }
  console.table(rows);

  const { body: classes } = await studio.get("/api/v1/documents?kind=class");
  const began = performance.now();
  const { body: started } = await studio.post(`/api/v1/classes/${classes[0].id}/kits`, {});
  const reply = await fetch(`${studio.url}/api/v1/jobs/${started.job}/events`, { headers: { accept: "text/event-stream" } });
  const steps = [];
  let text = "";
  let first = null;
  for await (const bytes of reply.body) {
    text += Buffer.from(bytes).toString("utf8");
    for (const found of text.matchAll(/^event: ?(\w+)$/gm)) {
      if (found[1] === "progress") {
        first ??= performance.now() - began;
        steps.push(performance.now() - began);
      }
    }
    text = text.slice(text.lastIndexOf("\n") + 1);
  }
  const over = performance.now() - began;
  const gaps = steps.map((at, i) => at - (steps[i - 1] ?? 0));
  const { body: job } = await studio.get(`/api/v1/jobs/${started.job}`);
  console.table([
    {
      job: "kits of a class",
      state: job.state,
      took: `${(over / 1000).toFixed(2)} s`,
      events: steps.length,
      "a second": (steps.length / (over / 1000)).toFixed(1),
      "first after": first === null ? "none" : `${first.toFixed(0)} ms`,
      "longest gap": `${Math.max(0, ...gaps, over - (steps.at(-1) ?? 0)).toFixed(0)} ms`,
    },
  ]);
} finally {
  await browser.close();
  await studio.close();
}

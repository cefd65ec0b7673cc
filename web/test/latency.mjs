/**
 * How fast a handle follows the hand, and how often a long job tells where it is. Prints a table; judges nothing.
 *
 *   SLACKWATER=target/release/slackwater node web/test/latency.mjs
 *
 * A handle is dragged by 60 moves, as far and back; the page leaves a measure `handle-request` for each answer it drew: from
 * the request to the pieces in the page. Moves that come faster than the studio answers are passed over by the page. Then every kind of long
 * work is done once. With `FIGURES=file` the figures are written there as JSON.
 */
import { writeFile } from "node:fs/promises";
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
const jobs = [];
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

  // Long work in turn; what a job is asked for stands in its page.
  const { body: classes } = await studio.get("/api/v1/documents?kind=class");
  const suit = "/api/v1/suits/example-14";
  const asked = [
    ["kits of a class", `/api/v1/classes/${classes[0].id}/kits`, {}],
    ["suit put on its form", `${suit}/worn`, {}],
    ["better draft", `${suit}/worn/better`, {}],
    ["lay packed closer, 10 s", "/api/v1/suits/example-15/lay/shell/pack", { seconds: 10, afresh: false }],
  ];
  for (const [job, path, body] of asked) jobs.push(await followed(studio, job, path, body));
  console.table(jobs);
  if (process.env.FIGURES) await writeFile(process.env.FIGURES, JSON.stringify({ rows, jobs }));
} finally {
  await browser.close();
  await studio.close();
}

/** Starts a job and listens until it is over: how often it told where it is, and how long it was silent at most. */
async function followed(studio, job, path, body) {
  const began = performance.now();
  const { body: started } = await studio.post(path, body);
  if (!started?.job) throw new Error(`${job} did not start: ${JSON.stringify(started)}`);
  const reply = await fetch(`${studio.url}/api/v1/jobs/${started.job}/events`, { headers: { accept: "text/event-stream" } });
  const told = [];
  let text = "";
  for await (const bytes of reply.body) {
    text += Buffer.from(bytes).toString("utf8");
    for (const found of text.matchAll(/^event: ?(\w+)$/gm)) {
      if (found[1] === "progress") told.push(performance.now() - began);
    }
    text = text.slice(text.lastIndexOf("\n") + 1);
  }
  const over = performance.now() - began;
  const gaps = [...told, over].map((at, i) => at - (told[i - 1] ?? 0));
  const { body: ended } = await studio.get(`/api/v1/jobs/${started.job}`);
  return {
    job,
    state: ended.state,
    took: `${(over / 1000).toFixed(2)} s`,
    events: told.length,
    "a second": (told.length / (over / 1000)).toFixed(1),
    "longest silence": `${Math.max(...gaps).toFixed(0)} ms`,
  };
}

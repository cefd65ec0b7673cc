/**
 * What the journeys share: a studio that can be ended, killed and started again on the same folder, pages that tell every
 * fault, and the small steps of a person: open a section, change a line, tick, read what is written.
 *
 * Everything is found by role and name, as a person or a screen reader finds it.
 */
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { freePort } from "./harness.mjs";

const require = createRequire(import.meta.url);
const START_MS = 30_000;
const END_MS = 20_000;
const QUIET_MS = 300;
/** Longer than this nothing in a page takes; a page that never draws must not hold a test for ever. */
const FRAMES_MS = 2_000;

/** Names of the eight sections, in their order. */
export const SECTIONS = ["Wearer", "Cloth", "Shape", "Wear", "Lay", "Sew", "Paper", "Try-on"];

/** The program under test; a test file that needs it fails at once when it is not named. */
export function program() {
  const { SLACKWATER } = process.env;
  if (!SLACKWATER) throw new Error("set SLACKWATER to the program to look at");
  return SLACKWATER;
}

/** A studio with a folder of its own. `more` are further arguments. */
export async function openStudio(more = []) {
  const folder = await mkdtemp(join(tmpdir(), "slackwater-journey-"));
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  let child = null;
  const start = async () => {
    const said = [];
    const started = spawn(program(), ["studio", "--port", String(port), "--data", folder, "--no-open", ...more], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    started.stderr.on("data", (bytes) => said.push(bytes));
    child = started;
    const until = Date.now() + START_MS;
    while (Date.now() < until) {
      if (started.exitCode !== null || started.signalCode !== null) {
        throw new Error(`the studio ended with ${started.exitCode ?? started.signalCode}: ${Buffer.concat(said)}`);
      }
      try {
        const reply = await fetch(`${url}/api/v1/settings`);
        if (reply.ok) return;
      } catch {
        // Not yet.
      }
      await pause(25);
    }
    throw new Error(`the studio did not answer within ${START_MS} ms: ${Buffer.concat(said)}`);
  };
  const end = (signal) =>
    new Promise((resolve, reject) => {
      const ended = child;
      child = null;
      if (!ended || ended.exitCode !== null || ended.signalCode !== null) return resolve();
      const late = setTimeout(() => {
        ended.kill("SIGKILL");
        reject(new Error(`the studio did not end within ${END_MS} ms of ${signal}`));
      }, END_MS);
      ended.once("exit", () => {
        clearTimeout(late);
        resolve();
      });
      ended.kill(signal);
    });
  const studio = {
    url,
    port,
    folder,
    start,
    /** Ends it as Ctrl+C does. */
    stop: () => end("SIGTERM"),
    /** Takes it away in the middle of whatever it does. */
    kill: () => end("SIGKILL"),
    /** Ends it and deletes its folder. */
    close: async () => {
      await end("SIGTERM");
      await rm(folder, { recursive: true, force: true });
    },
    get: (path) => ask(url + path),
    post: (path, body) =>
      ask(url + path, { method: "POST", headers: { "content-type": "application/json", "x-slackwater": "1" }, body: JSON.stringify(body) }),
    remove: (path) => ask(url + path, { method: "DELETE", headers: { "x-slackwater": "1" } }),
  };
  try {
    await start();
  } catch (error) {
    await studio.close();
    throw error;
  }
  return studio;
}

/** Sends a request; the answer's status and body. Rejects when nobody answers. */
async function ask(url, how) {
  const reply = await fetch(url, how);
  const text = await reply.text();
  let body = null;
  try {
    body = text === "" ? null : JSON.parse(text);
  } catch {
    body = text;
  }
  return { status: reply.status, body };
}

/** Waits; only where nothing can be waited for. */
export function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

/** Tries `check` until it no longer throws; then gives what it returned. */
export async function until(check, ms = 10_000) {
  const over = Date.now() + ms;
  for (;;) {
    try {
      return await check();
    } catch (error) {
      if (Date.now() > over) throw error;
      await pause(60);
    }
  }
}

/** A stream or request that the page closed itself is no fault. */
const CLOSED = /^failed: .* net::ERR_ABORTED$/;

/**
 * A window onto the studio. Every fault of every page in it is collected: errors and warnings on the console, exceptions,
 * failed requests, any request that leaves the studio. `expects` names the ones a journey brings about on purpose.
 */
export async function openWindow(browser, { width = 1440, height = 900, scale = 1, night = false, origins = [], touch = false } = {}) {
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: scale,
    hasTouch: touch,
    colorScheme: night ? "dark" : "light",
    reducedMotion: "reduce",
  });
  context.setDefaultTimeout(15_000);
  const faults = [];
  const outside = (address) => !origins.some((origin) => address.startsWith(`${origin}/`)) && !/^(data|blob|about):/.test(address);
  // News never end; everything else that is asked for is answered.
  const asked = new Set();
  let quietSince = Date.now();
  const over = (request) => {
    if (asked.delete(request)) quietSince = Date.now();
  };
  context.on("requestfinished", over);
  context.on("requestfailed", over);
  // On the context, so that windows the page opens count as well.
  context.on("request", (request) => {
    if (request.resourceType() !== "eventsource") asked.add(request);
    if (outside(request.url())) faults.push(`left the studio: ${request.url()}`);
  });
  context.on("requestfailed", (request) => faults.push(`failed: ${request.url()} ${request.failure()?.errorText ?? ""}`));
  context.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(`console: ${message.text()} ${message.location()?.url ?? ""}`);
  });
  context.on("weberror", (error) => faults.push(`uncaught: ${error.error()?.stack ?? error.error()}`));
  const page = await context.newPage();
  return {
    context,
    page,
    faults,
    /** All that was asked for is answered, and nothing more was asked for a while. */
    settled: () => until(() => assert.ok(asked.size === 0 && Date.now() - quietSince > QUIET_MS, [...asked].map((one) => one.url()).join(" "))),
    /** Closes it and demands that nothing went wrong but what matches one of `expects`. */
    close: async (expects = []) => {
      await context.close();
      const told = faults.filter((fault) => !CLOSED.test(fault) && !expects.some((one) => one.test(fault)));
      assert.deepEqual(told, []);
    },
  };
}

/** Runs a journey in a fresh studio and window; both are closed, and the window must be without a fault. */
export async function journey(browser, { more, expects = [], ...size } = {}, walk) {
  const studio = await openStudio(more);
  const view = await openWindow(browser, { ...size, origins: [studio.url] });
  let went = false;
  try {
    await walk({ studio, page: view.page, view });
    went = true;
  } catch (error) {
    if (view.faults.length > 0) error.message += `\nfaults of the page:\n${view.faults.join("\n")}`;
    await keepFailed(view.page).catch(() => undefined);
    throw error;
  } finally {
    if (went) await view.close(expects).finally(() => studio.close());
    else {
      await view.context.close();
      await studio.close();
    }
  }
}

/** What the page looked and read like when a journey broke off, into the folder `SHOTS`. */
async function keepFailed(page) {
  const { SHOTS } = process.env;
  if (!SHOTS) return;
  await writeFile(join(SHOTS, "failed.txt"), await page.locator("body").ariaSnapshot());
  await page.screenshot({ path: join(SHOTS, "failed.png"), fullPage: true });
}

/** Goes to an address and waits until its sheet is drawn. */
export async function go(page, url) {
  await page.goto(url, { waitUntil: "load" });
  await drawn(page);
}

/** The page has its heading, its fonts and what it asked for. */
export async function drawn(page) {
  await page.waitForSelector("main h1", { state: "attached" });
  await page.waitForFunction(() => !["Work order"].includes(document.querySelector("main h1")?.textContent.trim()));
  await page.evaluate(() => document.fonts.ready);
}

/**
 * The page has drawn what it was told. A headless browser that is short of time may stop giving frames to a page, and a
 * script that waits for one has no limit of its own: after [FRAMES_MS] it goes on without.
 */
export function frames(page) {
  return page.evaluate(
    (most) =>
      new Promise((resolve) => {
        const late = setTimeout(resolve, most);
        requestAnimationFrame(() =>
          requestAnimationFrame(() => {
            clearTimeout(late);
            resolve();
          }),
        );
      }),
    FRAMES_MS,
  );
}

/** Opens every section that is folded. */
export async function openAll(page) {
  for (const name of SECTIONS) {
    const word = page.getByRole("button", { name: `Open ${name}`, exact: true });
    if (await word.count()) await word.click();
  }
}

/** A page in the background draws slowly; a person brings it to the front first. */
function front(inside) {
  return ("page" in inside ? inside.page() : inside).bringToFront();
}

/** Opens one section if it is folded. */
export async function openSection(page, name) {
  await front(page);
  const word = page.getByRole("button", { name: `Open ${name}`, exact: true });
  if (await word.count()) await word.click();
}

/** The section of this name. */
export function section(page, name) {
  return page.locator("section.section").filter({ has: page.getByRole("heading", { level: 2, name, exact: true }) });
}

/** Changes a line in place: presses its value, types, and keeps with Enter. */
export async function change(inside, name, text) {
  await front(inside);
  await inside.getByRole("button", { name: new RegExp(`, change ${escaped(name)}$`) }).click();
  const field = inside.getByRole("textbox", { name: new RegExp(`^${escaped(name)}`) });
  await field.fill(text);
  await field.press("Enter");
  await field.waitFor({ state: "detached" });
}

/** What a line shows. */
export function line(inside, name) {
  return inside.getByRole("button", { name: new RegExp(`, change ${escaped(name)}$`) });
}

/** Chooses one of the words on a line. */
export async function choose(inside, group, word) {
  await front(inside);
  await inside.getByRole("radiogroup", { name: group, exact: true }).getByRole("radio", { name: word, exact: true }).click();
  await inside
    .getByRole("radiogroup", { name: group, exact: true })
    .getByRole("radio", { name: word, exact: true, checked: true })
    .waitFor();
}

/** For a pattern. */
export function escaped(text) {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
}

/** "kept 14:02" stands under the title. */
export function isKept(page) {
  return page.getByText(/^kept \d\d:\d\d$/).waitFor();
}

let axeSource = null;

/** Runs axe; one line for each violation. `rules` names the only ones to run. */
export async function axe(page, rules) {
  axeSource ??= await readFile(require.resolve("axe-core/axe.min.js"), "utf8");
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axeSource);
  const violations = await page.evaluate(async (only) => {
    const found = await globalThis.axe.run(document, {
      resultTypes: ["violations"],
      ...(only && { runOnly: { type: "rule", values: only } }),
    });
    return found.violations.map((rule) => ({
      id: rule.id,
      nodes: rule.nodes.map((node) => ({ target: node.target.join(" "), html: node.html.slice(0, 160), says: node.failureSummary })),
    }));
  }, rules ?? null);
  return violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.target}: ${node.says.replaceAll(/\s+/g, " ")} ${node.html}`));
}

/** How far the page can be pushed sideways; 0 when it fits. */
export function sideways(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

/**
 * Everything that can be pressed whose hit area is under 44 px, by its text. The hit area is the element's box, its label's
 * when it lies in one, and what `::after` adds: inline words are grown that way. Half a pixel is left to rounding.
 */
export function tooSmall(page) {
  return page.evaluate(() => {
    const MOST = 43.5;
    const grown = (element) => {
      const box = element.getBoundingClientRect();
      const area = { left: box.left, right: box.right, top: box.top, bottom: box.bottom };
      for (const pseudo of ["::before", "::after"]) {
        const style = getComputedStyle(element, pseudo);
        if (style.content === "none" || style.position !== "absolute" || style.pointerEvents === "none") continue;
        const side = (name) => Number.parseFloat(style[name]);
        if ([side("left"), side("right"), side("top"), side("bottom")].some(Number.isNaN)) continue;
        area.left = Math.min(area.left, box.left + side("left"));
        area.right = Math.max(area.right, box.right - side("right"));
        area.top = Math.min(area.top, box.top + side("top"));
        area.bottom = Math.max(area.bottom, box.bottom - side("bottom"));
      }
      return { width: area.right - area.left, height: area.bottom - area.top };
    };
    const found = [];
    for (const element of document.querySelectorAll("a[href], button, input, select, textarea, summary, [role=slider], [role=radio]")) {
      if (element.closest("[hidden], .skip") || element.matches(".heard")) continue;
      if (element.matches("input") && element.closest("label")) continue;
      const shown = element.checkVisibility ? element.checkVisibility({ visibilityProperty: true }) : true;
      const box = element.getBoundingClientRect();
      if (!shown || box.width === 0) continue;
      const { width, height } = grown(element);
      if (height < MOST || width < MOST) {
        const name = (element.getAttribute("aria-label") ?? element.textContent).trim().replaceAll(/\s+/g, " ").slice(0, 60);
        found.push(`${element.tagName.toLowerCase()}.${element.getAttribute("class") ?? ""} ${name}: ${Math.round(width)} x ${Math.round(height)}`);
      }
    }
    for (const label of document.querySelectorAll("label:has(input[type=checkbox], input[type=file])")) {
      const { width, height } = grown(label);
      if (width > 0 && (height < MOST || width < MOST)) found.push(`label ${label.textContent.trim()}: ${Math.round(width)} x ${Math.round(height)}`);
    }
    return found;
  });
}

/** The sizes every page must hold: three screens, and the desktop at 200 %, which halves what fits on it. */
export const SIZES = [
  { name: "1440", width: 1440, height: 900 },
  { name: "1024", width: 1024, height: 768 },
  { name: "390", width: 390, height: 844 },
  { name: "200 %", width: 720, height: 450 },
];

/** A page as it stands, at every size, by day and by night: axe, sideways scroll, hit areas. With `SHOTS` pictures are kept as `name-...`. */
export async function sound(page, name, state) {
  const found = [];
  const { SHOTS } = process.env;
  if (SHOTS) await mkdir(SHOTS, { recursive: true });
  for (const night of [false, true]) {
    await page.emulateMedia({ colorScheme: night ? "dark" : "light" });
    for (const { name: size, width, height } of SIZES) {
      await page.setViewportSize({ width, height });
      await frames(page);
      const told = (fault) => found.push(`${state}, ${size}${night ? ", night" : ""}: ${fault}`);
      const over = await sideways(page);
      if (over !== 0) told(`scrolls sideways by ${over} px`);
      (await tooSmall(page)).forEach(told);
      (await axe(page)).forEach(told);
      if (SHOTS) await page.screenshot({ path: join(SHOTS, `${name}-${state}-${size.replace(" %", "")}${night ? "-night" : ""}.png`), fullPage: true });
    }
  }
  await page.emulateMedia({ colorScheme: "light" });
  await page.setViewportSize({ width: 1440, height: 900 });
  assert.deepEqual(found, []);
}

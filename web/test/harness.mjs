/**
 * What the browser checks share: a server to ask, a browser to look with, pages that report every fault, axe.
 *
 * `SLACKWATER` names the program to start (`slackwater studio`), `PAGES` the example server of the pages, `CHROMIUM` the
 * browser. Servers get a free port on 127.0.0.1 and a data folder that is deleted afterwards.
 */
import { spawn } from "node:child_process";
import { readFile, rm, mkdtemp } from "node:fs/promises";
import { createServer } from "node:net";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

const require = createRequire(import.meta.url);

/** Nothing leaves the machine, and nothing of the maker's own browser is touched. */
const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const START_MS = 30_000;

/** The browser. */
export function browse() {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: FLAGS });
}

/** A port nobody listens on now. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** Starts the example server of the pages. Returns its address and how to end it. */
export async function servePages(program) {
  const child = spawn(program, ["0"], { stdio: ["ignore", "pipe", "inherit"] });
  const url = await firstLine(child);
  return { url, stop: () => end(child) };
}

/** Starts the studio with an empty data folder. `more` are further arguments. */
export async function serveStudio(program, more = []) {
  const folder = await mkdtemp(join(tmpdir(), "slackwater-"));
  const port = await freePort();
  const child = spawn(program, ["studio", "--port", String(port), "--data", folder, ...more], {
    stdio: ["ignore", "inherit", "inherit"],
  });
  const url = `http://127.0.0.1:${port}`;
  const stop = async () => {
    await end(child);
    await rm(folder, { recursive: true, force: true });
  };
  try {
    await answers(url, child);
  } catch (error) {
    await stop();
    throw error;
  }
  return { url, folder, stop };
}

function firstLine(child) {
  return new Promise((resolve, reject) => {
    let said = "";
    child.once("error", reject);
    child.once("exit", (code) => reject(new Error(`the server ended with ${code} before it listened`)));
    child.stdout.on("data", (bytes) => {
      said += bytes;
      if (said.includes("\n")) resolve(said.slice(0, said.indexOf("\n")).trim());
    });
  });
}

async function answers(url, child) {
  let failed;
  child.once("error", (error) => (failed = error));
  const until = Date.now() + START_MS;
  while (Date.now() < until) {
    if (failed) throw failed;
    if (child.exitCode !== null) throw new Error(`the server ended with ${child.exitCode} before it listened`);
    try {
      await fetch(url);
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  throw new Error(`${url} did not answer within ${START_MS} ms`);
}

function end(child) {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.once("exit", resolve);
    child.kill("SIGTERM");
  });
}

/**
 * Opens a page and collects its faults: errors on the console, uncaught exceptions, failed requests, requests to anywhere
 * but the server, breaches of its policy. The list grows as the page lives; look at it at the end.
 */
export async function open(browser, url, { width = 1440, height = 900, scale = 1, night = false, calm = true } = {}) {
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: scale,
    colorScheme: night ? "dark" : "light",
    reducedMotion: calm ? "reduce" : "no-preference",
  });
  const page = await context.newPage();
  const faults = [];
  const { origin } = new URL(url);
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`uncaught: ${error.stack ?? error.message}`));
  page.on("requestfailed", (request) => faults.push(`failed: ${request.url()} ${request.failure()?.errorText ?? ""}`));
  page.on("request", (request) => {
    const asked = request.url();
    if (!asked.startsWith(`${origin}/`) && !/^(data|blob):/.test(asked)) faults.push(`left the server: ${asked}`);
  });
  await page.goto(url, { waitUntil: "load" });
  await page.evaluate(() => document.fonts.ready);
  await page.waitForSelector("main h1");
  return { page, faults };
}

/** The three sizes by day and by night, and the desktop at 200 %, where it must become the tablet's form. */
export const shots = [
  ...[
    ["1440", { width: 1440, height: 900 }],
    ["1024", { width: 1024, height: 768 }],
    ["390", { width: 390, height: 844 }],
  ].flatMap(([name, size]) => [
    { name: `${name}-day`, size },
    { name: `${name}-night`, size: { ...size, night: true } },
  ]),
  { name: "1440-200percent", size: { width: 720, height: 450, scale: 2 } },
].map((shot) => ({ ...shot, open: (browser, url) => open(browser, url, shot.size) }));

/** Runs axe on the page; returns one line for each violation. */
export async function axe(page) {
  const source = await readFile(require.resolve("axe-core/axe.min.js"), "utf8");
  await page.evaluate(source);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.target.join(" ")}: ${node.failureSummary}`));
}

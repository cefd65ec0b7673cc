/**
 * The frame and its parts in a real browser: axe, keys, focus, sizes, no request that leaves the server, no error.
 *
 *   cargo build -p slackwater-pages --example serve
 *   PAGES=target/debug/examples/serve node --test web/test/run.mjs
 *   SLACKWATER=target/debug/slackwater adds the studio's own first page; SHOTS=folder keeps pictures.
 */
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { axe, browse, open, servePages, serveStudio, shots } from "./harness.mjs";

const { PAGES, SLACKWATER, SHOTS } = process.env;
if (!PAGES && !SLACKWATER) throw new Error("set PAGES or SLACKWATER to the program to look at");

let browser;
before(async () => {
  browser = await browse();
  if (SHOTS) await mkdir(SHOTS, { recursive: true });
});
after(() => browser?.close());

/** Runs `check` on a fresh page and then demands that the page had no fault. */
async function look(url, size, check) {
  const { page, faults } = await open(browser, url, size);
  try {
    await check(page);
    assert.deepEqual(faults, []);
  } finally {
    await page.context().close();
  }
}

async function keepShot(page, name) {
  if (SHOTS) await page.screenshot({ path: join(SHOTS, `${name}.png`), fullPage: true });
}

const noSidewaysScroll = (page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Everything one can press whose target is under 44 px high or wide, by its text; inline hit areas count by their ::after. */
const tooSmall = (page) =>
  page.evaluate(() => {
    const grown = (element) => {
      const box = element.getBoundingClientRect();
      const after = getComputedStyle(element, "::after");
      const grow = (side) => (after.content === "none" || after.position !== "absolute" ? 0 : -Number.parseFloat(after[side]) || 0);
      return {
        width: box.width + grow("left") + grow("right"),
        height: box.height + grow("top") + grow("bottom"),
      };
    };
    const found = [];
    for (const element of document.querySelectorAll("main a, main button, main input, nav a, footer button")) {
      const touched = element.closest("label") ?? element;
      const style = getComputedStyle(element);
      if (style.display === "none" || element.closest("[hidden], .skip, dialog") || !element.offsetParent) continue;
      const { width, height } = grown(touched);
      if (height < 43.5 || width < 38) found.push(`${element.textContent.trim() || element.id}: ${Math.round(width)} x ${Math.round(height)}`);
    }
    return found;
  });

describe("gallery", { skip: !PAGES && "PAGES is not set" }, () => {
  let server, url;
  before(async () => {
    server = await servePages(PAGES);
    url = `${server.url}/gallery`;
  });
  after(() => server?.stop());

  for (const shot of shots) {
    test(`${shot.name}: axe, touch sizes, no sideways scroll`, () =>
      look(url, shot.size, async (page) => {
        await page.waitForSelector(".progress");
        await keepShot(page, `gallery-${shot.name}`);
        assert.equal(await noSidewaysScroll(page), 0);
        assert.deepEqual(await tooSmall(page), []);
        assert.deepEqual(await axe(page), []);
      }));
  }

  test("with a slip, an editor and a fault open, axe still finds nothing", () =>
    look(url, {}, async (page) => {
      await page.getByRole("button", { name: /15 %/ }).click();
      await page.getByRole("button", { name: /change Waist/ }).click();
      await page.keyboard.type("wide");
      await page.keyboard.press("Enter");
      await page.getByText("“wide” is not a length.").waitFor();
      await page.waitForSelector(".progress");
      await keepShot(page, "gallery-open-1440");
      assert.deepEqual(await axe(page), []);
    }));

  for (const [name, size] of [["1024", { width: 1024, height: 768 }], ["390", { width: 390, height: 844 }]]) {
    test(`${name}: slip and editor open in the flow`, () =>
      look(url, size, async (page) => {
        await page.getByRole("button", { name: /15 %/ }).click();
        await page.getByRole("button", { name: /164 centimetres/ }).click();
        await page.getByRole("button", { name: /change Waist/ }).click();
        await keepShot(page, `gallery-open-${name}`);
        assert.equal(await noSidewaysScroll(page), 0);
        assert.deepEqual(await axe(page), []);
      }));
  }

  test("night colours come from the system, and the choice overrides them", () =>
    look(url, { night: true }, async (page) => {
      const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
      assert.equal(await ground(), "rgb(23, 30, 35)");
      await page.getByRole("radio", { name: "Day" }).click();
      assert.equal(await ground(), "rgb(240, 240, 233)");
      await page.reload();
      assert.equal(await ground(), "rgb(240, 240, 233)");
    }));

  test("number keys jump, but not from a field; they can be switched off", () =>
    look(url, {}, async (page) => {
      const heard = () => page.evaluate(() => document.activeElement?.textContent);
      await page.keyboard.press("6");
      assert.equal(await heard(), "Sew");
      assert.match(await page.locator(".marks [aria-current]").textContent(), /6 Sew: stop/);
      await page.getByRole("textbox", { name: "Second" }).focus();
      await page.keyboard.press("8");
      assert.equal(await page.evaluate(() => document.activeElement?.tagName), "INPUT");
      await page.evaluate(() => document.activeElement.blur());
      await page.keyboard.press("?");
      await page.getByRole("heading", { name: "Keys" }).waitFor();
      assert.deepEqual(await axe(page), []);
      await keepShot(page, "gallery-keys");
      await page.getByRole("radio", { name: "Off" }).click();
      await page.getByRole("dialog").getByRole("button", { name: "Put it away" }).click();
      await page.evaluate(() => document.activeElement?.blur());
      await page.keyboard.press("2");
      assert.notEqual(await heard(), "Cloth");
    }));

  test("a value is changed in place: Escape leaves it, Enter keeps it, the focus comes back", () =>
    look(url, {}, async (page) => {
      const waist = page.getByRole("button", { name: /change Waist/ });
      await waist.click();
      await page.keyboard.type("99");
      await page.keyboard.press("Escape");
      assert.match(await waist.textContent(), /73\.0/);
      assert.ok(await waist.evaluate((element) => element === document.activeElement));
      await page.keyboard.press("Enter");
      await page.keyboard.type("72.5");
      await page.keyboard.press("Enter");
      await page.getByText("kept 14:02").waitFor();
      assert.match(await waist.textContent(), /72\.5/);
      assert.ok(await waist.evaluate((element) => element === document.activeElement));
    }));

  test("a refused value stays in its field, with what to do", () =>
    look(url, {}, async (page) => {
      await page.getByRole("button", { name: /change Hip/ }).click();
      await page.keyboard.type("73,x");
      await page.keyboard.press("Enter");
      await page.getByText("Write 73.0 or 28 3/4.").waitFor();
      assert.equal(await page.getByRole("textbox", { name: /^Hip/ }).inputValue(), "73,x");
      assert.equal(await page.getByRole("textbox", { name: /^Hip/ }).getAttribute("aria-invalid"), "true");
    }));

  test("a why-slip opens level with its number and Escape puts it away", () =>
    look(url, {}, async (page) => {
      const asked = page.getByRole("button", { name: /15 %/ });
      await asked.click();
      const slip = page.getByRole("group", { name: "Why 15 % at the hip?" });
      const [paper, number] = [await slip.boundingBox(), await asked.boundingBox()];
      assert.ok(paper.y < number.y + number.height && paper.y + paper.height > number.y, "the slip is not beside the number");
      assert.ok(paper.x > number.x + number.width, "the slip covers the number");
      const start = async () => (await page.locator("#wear .note").first().boundingBox()).y;
      assert.ok((await start()) >= paper.y + paper.height, "a note lies under the slip");
      await page.keyboard.press("Escape");
      await slip.waitFor({ state: "detached" });
      assert.ok((await start()) < paper.y + paper.height, "the note does not come back");
      assert.ok(await asked.evaluate((element) => element === document.activeElement));
    }));

  test("a choice moves with the arrow keys and has one stop for Tab", () =>
    look(url, {}, async (page) => {
      await page.getByRole("button", { name: "Open Shape" }).click();
      await page.getByRole("radio", { name: "One-piece" }).focus();
      await page.keyboard.press("ArrowRight");
      assert.equal(await page.getByRole("radio", { name: "Two-piece" }).getAttribute("aria-checked"), "true");
      await page.keyboard.press("End");
      assert.equal(await page.getByRole("radio", { name: "Rash top" }).getAttribute("aria-checked"), "true");
      assert.equal(await page.locator('#shape [role="radio"][tabindex="0"]').count(), 1);
    }));

  test("good sections fold; others stay open", () =>
    look(url, {}, async (page) => {
      assert.equal(await page.locator("#lay .body").isVisible(), false);
      await page.getByRole("button", { name: "Open Lay" }).click();
      assert.equal(await page.locator("#lay .body").isVisible(), true);
      assert.equal(await page.getByRole("button", { name: /(Open|Close) Sew/ }).count(), 0);
    }));

  test("notes stand level with what they name, and never over each other", () =>
    look(url, {}, async (page) => {
      const [first, second] = await page.locator("#wearer .note").all();
      const [a, b] = [await first.boundingBox(), await second.boundingBox()];
      const subject = await page.locator("#ten-more").boundingBox();
      assert.ok(b.y >= a.y + a.height, "notes overlap");
      assert.ok(Math.abs(b.y - subject.y) < 1.5, `note at ${b.y}, its subject at ${subject.y}`);
    }));

  test("the current mark follows the reading", () =>
    look(url, {}, async (page) => {
      await page.locator("#sew").scrollIntoViewIfNeeded();
      await page.evaluate(() => document.getElementById("sew").scrollIntoView());
      await page.waitForFunction(() => document.querySelector(".marks [aria-current]")?.textContent.includes("Sew"));
    }));

  test("the tape's centimetres follow the calibrated screen", () =>
    look(url, {}, async (page) => {
      const ten = () => page.locator(".tape .ten").first().evaluate((element) => element.offsetTop);
      const before = await ten();
      await page.getByRole("button", { name: "Make the tape true" }).click();
      const slider = page.getByRole("slider", { name: "Width of the outline" });
      await slider.evaluate((element) => {
        element.value = "5";
        element.dispatchEvent(new Event("input", { bubbles: true }));
      });
      await keepShot(page, "gallery-card");
      assert.deepEqual(await axe(page), []);
      await page.getByRole("button", { name: "Keep it" }).click();
      assert.equal(Math.round(before), 378);
      assert.equal(Math.round(await ten()), 500);
    }));

  test("printed: white ground, nothing to press, the notes stay", () =>
    look(url, { night: true }, async (page) => {
      await page.emulateMedia({ media: "print", colorScheme: "dark" });
      await keepShot(page, "gallery-print");
      assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), "rgb(255, 255, 255)");
      assert.equal(await page.evaluate(() => getComputedStyle(document.body).color), "rgb(29, 40, 48)");
      assert.equal(await page.locator(".ticket:visible, .textlink:visible, .marks:visible").count(), 0);
      assert.ok((await page.locator(".note:visible").count()) >= 5);
      // A layout that cannot break leaves sheets blank, and there are more of them.
      const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
      const sheets = pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
      assert.ok(sheets >= 2 && sheets <= 4, `${sheets} sheets for a page that fills three`);
    }));

  test("an address nobody knows says so", () =>
    look(`${server.url}/no/such/page`, {}, async (page) => {
      await page.getByRole("heading", { level: 1, name: "Nothing here" }).waitFor();
      assert.deepEqual(await axe(page), []);
    }));
});

describe("studio", { skip: !SLACKWATER && "SLACKWATER is not set" }, () => {
  let server;
  before(async () => {
    server = await serveStudio(SLACKWATER);
  });
  after(() => server?.stop());

  for (const shot of shots) {
    test(`${shot.name}: the first page`, () =>
      look(server.url, shot.size, async (page) => {
        await keepShot(page, `studio-${shot.name}`);
        assert.equal(await noSidewaysScroll(page), 0);
        assert.deepEqual(await axe(page), []);
      }));
  }
});

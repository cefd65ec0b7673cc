/**
 * Every page and every state a page can be in: axe finds nothing, nothing scrolls sideways, everything that can be pressed
 * can be hit with a thumb. At three sizes and at 200 %, by day and by night.
 */
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { browse } from "../harness.mjs";
import { SIZES, axe, change, frames, go, openAll, openSection, openStudio, openWindow, section, sideways, tooSmall, until } from "../kit.mjs";

let browser;
let studio;
before(async () => {
  browser = await browse();
  studio = await openStudio();
});
after(async () => {
  await browser?.close();
  await studio?.close();
});

/** Only this differs at night. */
const NIGHT_RULES = ["color-contrast"];

/** Dates as the studio keeps them, where a person reads. */
async function rawDates(page) {
  const text = await page.evaluate(() => document.body.innerText);
  return [...text.matchAll(/.{0,30}\b\d{4}-\d{2}-\d{2}\b.{0,12}/g)].map(([found]) => `a raw date: ${found}`);
}

/** Figures of the tape that touch, centimetres and inches alike; a hair of 2 px between them is the least. */
function tapeCollisions(page) {
  return page.evaluate(() => {
    const LEAST = 2;
    const boxes = [...document.querySelectorAll(".tape span")]
      .flatMap((span) => [span.firstChild, span.querySelector("small")?.firstChild ?? null].flatMap((text) => {
        if (!text) return [];
        const range = document.createRange();
        range.selectNode(text);
        const { left, right, top, bottom, width, height } = range.getBoundingClientRect();
        // A line is higher than its figures: digits fill two thirds of it.
        const air = height / 6;
        return width === 0 ? [] : [{ says: text.textContent, left, right, top: top + air, bottom: bottom - air }];
      }))
      .sort((a, b) => a.top - b.top);
    const found = [];
    boxes.forEach((one, i) => {
      for (const other of boxes.slice(i + 1, i + 8)) {
        if (other.top < one.bottom && other.left < one.right + LEAST && one.left < other.right + LEAST) {
          found.push(`tape: ${one.says} touches ${other.says}`);
        }
      }
    });
    return found;
  });
}

/** Looks at the page as it stands, at every size, by day and by night; collects instead of stopping at the first. */
async function audit(page, state) {
  const found = [];
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    await frames(page);
    const told = (fault) => found.push(`${state}, ${name}: ${fault}`);
    const over = await sideways(page);
    if (over !== 0) told(`scrolls sideways by ${over} px`);
    (await tooSmall(page)).forEach(told);
    (await tapeCollisions(page)).forEach(told);
    (await rawDates(page)).forEach(told);
    (await axe(page)).forEach(told);
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: "dark" });
  (await axe(page, NIGHT_RULES)).forEach((fault) => found.push(`${state}, night: ${fault}`));
  await page.emulateMedia({ colorScheme: "light" });
  return found;
}

/** Looks at one address; `bring` brings the page into its state. */
async function look(path, { state = path, expects = [], other = studio, bring } = {}) {
  const view = await openWindow(browser, { origins: [other.url] });
  let found = [];
  try {
    await go(view.page, other.url + path);
    await bring?.(view.page);
    found = await audit(view.page, state);
  } catch (error) {
    await view.context.close();
    throw error;
  }
  await view.close(expects);
  if (found.length > 0) assert.fail(`${found.length} faults\n${found.join("\n")}`);
}

describe("pages", () => {
  for (const path of [
    "/",
    "/wearers/example-maren",
    "/wearers/example-ines",
    "/cloths/example-slate",
    "/elastics/example-rubber",
    "/samples",
    "/drawer",
    "/drawer/example-drawer-1",
    "/drawer/example-drawer-2",
    "/drawer/example-drawer-2/sheet",
    "/workroom",
    "/classes",
    "/ranges",
    "/pair",
    "/suits/example-14/shopping",
    "/suits/example-14/bench",
    "/suits/example-14/projector",
  ]) {
    test(path, () => look(path));
  }
  test("an address nobody knows", () => look("/no/such/page"));
  test("a suit nobody knows", () => look("/suits/nothing", { expects: [/status of 404/] }));
});

describe("orders with every section open", () => {
  for (const suit of [14, 15, 16, 17, 18]) test(`No. ${suit}`, () => look(`/suits/example-${suit}`, { bring: openAll }));
});

describe("states of an order", () => {
  const at = (hash, state, bring, expects) => test(state, () => look(`/suits/example-14${hash}`, { state, bring, expects: expects ?? [] }));
  at("#wear", "why-slip open", async (page) => {
    await section(page, "Wear").locator("button.why").first().click();
    await page.getByRole("group", { name: /^Why/ }).waitFor();
  });
  at("", "history open", async (page) => {
    await openSection(page, "Shape");
    await change(section(page, "Shape"), "Strap", "4.0");
    await page.getByRole("button", { name: "History" }).click();
    await page.getByRole("list", { name: "History, the newest first" }).waitFor();
  });
  test("a proposal drawn in pencil", () =>
    look("/suits/example-15#wear", {
      state: "a proposal drawn in pencil",
      bring: async (page) => {
        await section(page, "Wear").locator(".margin").getByRole("button", { name: /^Try / }).first().click();
        await page.getByText(/Drawn in pencil in Shape and Wear/).waitFor();
      },
    }));
  test("a value that is no length", async () => {
    try {
      await look("/suits/example-14#shape", {
        state: "a value that is no length",
        bring: async (page) => {
          await openSection(page, "Shape");
          await change(section(page, "Shape"), "Strap", "wide");
          await page.getByText(/Strap width is not a length/).first().waitFor();
        },
      });
    } finally {
      await studio.post("/api/v1/suits/example-14/back", {});
    }
  });
  at("#shape", "a handle in the hand", async (page) => {
    await openSection(page, "Shape");
    const handle = section(page, "Shape").getByRole("slider").first();
    await handle.focus();
    await page.keyboard.press("ArrowDown");
    await page.locator(".k-old").first().waitFor();
  });
  at("#cloth", "a swatch test", async (page) => {
    await openSection(page, "Cloth");
    await section(page, "Cloth").getByRole("button", { name: /^Test it again ?: Slate/ }).click();
    await page.getByRole("group", { name: /^Testing/ }).waitFor();
  });
  at("#cloth", "the ruler of a swatch test made true", async (page) => {
    await openSection(page, "Cloth");
    await section(page, "Cloth").getByRole("button", { name: /^Test it again ?: Slate/ }).click();
    await page.getByRole("button", { name: /^Make it true with a bank card/ }).click();
    await page.getByRole("img", { name: "Outline of a bank card" }).waitFor();
  });
  at("#shape", "every group of what a suit may have besides", async (page) => {
    await openSection(page, "Shape");
    for (const group of await section(page, "Shape").locator("details.group summary").all()) await group.click();
    await section(page, "Shape").locator("details.group[open] .groupbody").last().waitFor();
  });
  at("#wearer", "left and right", async (page) => {
    await openSection(page, "Wearer");
    await section(page, "Wearer").locator("details.group summary").click();
    await page.getByText(/^Write the right side/).waitFor();
  });
  at("#try-on", "a try-on note being written", async (page) => {
    await page.getByRole("button", { name: "Write a try-on note" }).click();
  });
  at("", "a conflict asked about", async (page) => {
    const { body } = await studio.get("/api/v1/documents/example-14");
    await openSection(page, "Shape");
    await page.route("**/api/v1/edits", async (route) => {
      const sent = route.request().postDataJSON();
      await route.continue({ postData: JSON.stringify({ ...sent, parts: sent.parts.map((part) => ({ ...part, base: body.revision })) }) });
    }, { times: 1 });
    await studio.post("/api/v1/edits", { parts: [{ document: "example-14", base: body.revision }], changes: [{ document: "example-14", path: "design.crotch_width", value: "7.3 cm" }], words: "" });
    await until(async () => change(section(page, "Shape"), "Crotch width", "7.8"));
    await page.getByText(/was changed somewhere else/).waitFor();
  }, [/status of 409/]);
  test("the studio does not answer", async () => {
    const own = await openStudio();
    try {
      await look("/suits/example-14#shape", {
        state: "the studio does not answer",
        other: own,
        expects: [/ERR_/],
        bring: async (page) => {
          await openSection(page, "Shape");
          await own.stop();
          await change(section(page, "Shape"), "Strap", "4.4");
          await page.locator(".head .kept").getByText(/waits here/).waitFor();
        },
      });
    } finally {
      await own.close();
    }
  });
  test("the keys", () =>
    look("/suits/example-14", {
      state: "the keys",
      bring: async (page) => {
        await page.keyboard.press("?");
        await page.getByRole("heading", { name: "Keys" }).waitFor();
      },
    }));
  test("bench, all sewn", () =>
    look("/suits/example-17/bench", {
      state: "bench, last step",
      bring: async (page) => {
        for (let i = 0; i < 60; i += 1) await page.keyboard.press("ArrowRight");
      },
    }));
  test("projector, the square", () =>
    look("/suits/example-14/projector", {
      state: "projector, the square",
      bring: (page) => page.getByRole("button", { name: "Measure the square" }).click(),
    }));
});

describe("states of the register", () => {
  test("the bin, and a backup and a thing of the bin asked about", async () => {
    await studio.post("/api/v1/backups", {});
    await studio.remove("/api/v1/documents/example-mesh");
    await studio.remove("/api/v1/documents/example-clear");
    try {
      await look("/workroom", {
        state: "the bin",
        bring: async (page) => {
          await page.getByRole("button", { name: /^Delete it for good ?: Power mesh/ }).click();
          await page.getByRole("group", { name: "Delete Power mesh" }).waitFor();
          await page.getByRole("button", { name: /^Put it back ?, the copy of/ }).first().click();
          await page.getByText(/^Everything becomes as it was then/).waitFor();
          await page.getByRole("radio", { name: "Replaces all that is here" }).click();
          await page.getByText(/^Everything here goes/).waitFor();
        },
      });
    } finally {
      await studio.post("/api/v1/documents/example-mesh/restore", {});
      await studio.post("/api/v1/documents/example-clear/restore", {});
    }
  });
  test("an order in the bin", () =>
    look("/suits/example-18", {
      state: "an order in the bin",
      // Its page hears of it and asks once more.
      expects: [/status of 404/],
      bring: async (page) => {
        await page.getByRole("button", { name: "Put this order into the bin" }).click();
        await page.locator(".binned").waitFor();
      },
    }).finally(() => studio.post("/api/v1/documents/example-18/restore", {})));
  test("a wearer nobody has measured", async () => {
    const { body: made } = await studio.post("/api/v1/documents", { kind: "wearer", body: { name: "Runa", form: "woman" }, words: "" });
    const { body: suit } = await studio.post("/api/v1/suits", { name: "Runa’s", wearer: made.id, like: null });
    try {
      await look(`/suits/${suit.id}#wearer`, {
        state: "a wearer nobody has measured",
        bring: (page) => page.getByText(/^A middling figure, to show/).waitFor(),
      });
    } finally {
      await studio.remove(`/api/v1/wearers/${made.id}`);
    }
  });
  test("deleting a wearer, asked once more", () =>
    look("/wearers/example-tove", {
      state: "deleting a wearer",
      bring: async (page) => {
        await page.getByRole("button", { name: /^Delete Tove/ }).click();
        await page.getByRole("group", { name: "Delete Tove" }).waitFor();
      },
    }));
  test("a cloth in the bin, then taken out of it again", () =>
    look("/cloths/example-mesh", {
      state: "a cloth in the bin",
      bring: async (page) => {
        await page.getByRole("button", { name: "Take Power mesh out" }).click();
        await page.locator(".binned").waitFor();
      },
    }).finally(() => studio.post("/api/v1/documents/example-mesh/restore", {})));
  test("the kits of a class made", () =>
    look("/classes", {
      state: "kits made",
      bring: async (page) => {
        const item = page.locator(".shelflist > li").first();
        await item.getByRole("button").first().click();
        await item.getByRole("button", { name: "Make the kits" }).click();
        // Patterns and booklets of a whole class are typeset.
        await item.getByRole("link", { name: "Take the kits" }).waitFor({ timeout: 60_000 });
      },
    }));
  test("nothing found", () =>
    look("/", {
      state: "nothing found",
      bring: async (page) => {
        await page.getByLabel("Find a suit, wearer or cloth").fill("zzz");
        await page.getByText("Nothing found").waitFor();
      },
    }));
  test("the code for a tablet", async () => {
    const own = await openStudio(["--lan"]);
    try {
      await look("/workroom", {
        state: "the code for a tablet",
        other: own,
        bring: async (page) => {
          await page.getByRole("button", { name: "Let a tablet in" }).click();
          await page.locator(".code").waitFor();
        },
      });
    } finally {
      await own.close();
    }
  });
});

describe("an empty workroom", () => {
  test("first page and forms", async () => {
    const own = await openStudio();
    try {
      await own.remove("/api/v1/example");
      await look("/", { state: "first page, empty", other: own });
      await look("/", {
        state: "forms open",
        other: own,
        bring: async (page) => {
          await page.getByRole("button", { name: "Start a suit" }).click();
          await page.getByRole("textbox", { name: "Name of the suit" }).waitFor();
        },
      });
      const { body } = await own.post("/api/v1/suits", { name: "New", wearer: null, like: null });
      await look(`/suits/${body.id}`, { state: "order, nothing yet", other: own });
      await look("/classes", { state: "classes, none", other: own });
      await look("/samples", { state: "samples, none", other: own });
      await look("/drawer", { state: "drawer, none", other: own });
    } finally {
      await own.close();
    }
  });
});

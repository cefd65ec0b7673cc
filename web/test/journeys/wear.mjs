/** The computed fit: stopped once, put on, the form turned by keys, a finding tried and taken and taken back, a better draft left and taken. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, choose, go, journey, openSection, section, sideways, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const SUIT = "example-14";

async function wear(page, studio, suit = SUIT) {
  await go(page, `${studio.url}/suits/${suit}#wear`);
  await openSection(page, "Wear");
  const part = section(page, "Wear");
  await part.locator("#wear-fitted").waitFor();
  return part;
}

/** What the studio has of it. */
async function told(studio, suit = SUIT) {
  return (await studio.get(`/api/v1/suits/${suit}/worn`)).body;
}

/** Every value of a proposal stands in the suit's document. */
function isTaken(studio, suit, proposed) {
  return until(async () => {
    const { design } = (await studio.get(`/api/v1/documents/${suit}`)).body.body;
    for (const set of proposed.sets.filter((one) => one.value !== null)) {
      const now = set.path.split(".").slice(1).reduce((at, key) => at?.[key], design);
      assert.equal(now, set.value, set.path);
    }
  });
}

/** Asks for the quickest way to put it on. */
async function quickest(part, words = "Coarse, quick") {
  await part.getByText(/^How it is put on:/).click();
  await choose(part, "Worked out", words);
  await choose(part, "Against the skin", "It slides");
}

test("stopped once, then put on: the form turns by keys, every level has both figures, and a newer draft makes it old", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const part = await wear(page, studio);
    await quickest(part, "Fine, slow");
    await part.getByRole("button", { name: "Put it on the form" }).click();
    const strip = part.getByRole("progressbar");
    await strip.waitFor();
    await until(async () => assert.match(await part.locator(".progress p").textContent(), /step \d+ of about \d+/), 20_000);
    await part.getByRole("button", { name: "Stop" }).click();
    await part.getByText("Stopped. Nothing was changed.").waitFor();
    assert.equal((await told(studio)).fit, null);

    await choose(part, "Worked out", "Coarse, quick");
    await part.getByRole("button", { name: "Put it on the form" }).click();
    const ladder = part.getByRole("group", { name: "Solved stretch ladder" });
    await ladder.waitFor({ timeout: 30_000 });
    const { fit } = await told(studio);
    assert.equal(await ladder.locator(".rung").count(), fit.levels.length);
    const waist = fit.levels.find((level) => level.level === "waist");
    const rung = ladder.locator(".rung", { hasText: "Waist" });
    assert.match(await rung.locator(".worn").textContent(), new RegExp(`^${waist.around.main} %`));
    assert.equal((await rung.locator(".cutw").textContent()).trim(), `${waist.quick[0].main} %`);
    await rung.locator("button.rungname").click();
    await part.getByText(new RegExp(`^Waist\\. Body .*Squeeze ${waist.squeeze.main.replace("~", "~")} kPa`)).waitFor();

    // Its figures say why; no stop of the Tab key stands on the table for ears.
    await rung.locator("button.why").click();
    const slip = page.getByRole("group", { name: `Why ${waist.around.main} % at the waist, solved?` });
    await slip.waitFor();
    await page.keyboard.press("Escape");
    await slip.waitFor({ state: "detached" });
    assert.equal(await part.locator(".heard table button").count(), 0);
    // The stitches go by it now.
    await openSection(page, "Sew");
    await section(page, "Sew").getByText(/as it was solved in Wear\./).waitFor();
    await page.keyboard.press("4");

    // Turned by keys: another drawing at every step, and the same when it has come round.
    const form = ladder.locator(".rings.worn");
    const slider = form.getByRole("slider", { name: "Turn the form" });
    const drawn = () => form.locator("svg path:not(.bare):not(.edge)").evaluateAll((all) => all.map((path) => path.getAttribute("d")).join(" "));
    await slider.focus();
    await page.keyboard.press("Home");
    const front = await drawn();
    assert.ok(front.length > 2000, "no cloth is drawn");
    const seen = new Set([front]);
    for (let n = 0; n < 7; n += 1) {
      await page.keyboard.press("Shift+ArrowRight");
      seen.add(await drawn());
    }
    assert.equal(seen.size, 8, "a step does not turn it");
    assert.match(await slider.getAttribute("aria-valuetext"), /45 degrees towards the right side/);
    await page.keyboard.press("Shift+ArrowRight");
    assert.equal(await drawn(), front);
    await part.getByRole("button", { name: "Turn to back" }).click();
    assert.equal(await slider.getAttribute("aria-valuenow"), "162");

    // A finding's place is ringed, and the form turned to it.
    const spot = fit.found.find((one) => one.at !== null && one.state !== "good");
    await part.getByRole("button", { name: `Show it on the form: ${spot.place}`, exact: true }).click();
    await form.locator("circle.mark").waitFor();
    const towards = (Math.atan2(spot.at[0], spot.at[2]) * 180) / Math.PI;
    const off = towards - Number(await slider.getAttribute("aria-valuenow"));
    assert.ok(Math.abs(off) <= 26, `the place is ${off} degrees off the middle`);

    assert.deepEqual(await axe(page), []);
    assert.equal(await sideways(page), 0);
    await part.getByText("Drawn flat, to be printed").click();
    // A sheet has no size of its own: it is there once it is decoded, as wide as its column or more.
    const comes = (what) =>
      until(async () => {
        const img = part.getByRole("img", { name: `The suit on the form, ${what}` });
        const [drawn, width] = await img.evaluate((it) => [it.complete && it.naturalWidth > 0, it.clientWidth]);
        assert.ok(drawn && width >= 640, `the drawing of ${what} does not come`);
      });
    await comes("rings and ladder");
    await choose(part, "It shows", "Squeeze in lines");
    await comes("squeeze in lines");
    await part.getByText("What it rests on").click();
    await part.getByText("Nothing grips: the cloth slides to where it is in balance.").waitFor();

    // Found again after a reload, and old once the draft is another.
    await page.reload();
    await ladder.waitFor();
    const { revision } = (await studio.get(`/api/v1/documents/${SUIT}`)).body;
    await studio.post("/api/v1/edits", {
      parts: [{ document: SUIT, base: revision }],
      changes: [{ document: SUIT, path: "design.fit", value: "relaxed" }],
      words: "",
    });
    await part.getByText(/an older draft: what is drafted now was not put on yet/).waitFor();
    await section(page, "Sew").getByText(/^The stitches are chosen for the stretches the draft means\./).waitFor();
    assert.equal(await part.getByRole("button", { name: "Put it on again" }).count(), 1);
    assert.equal(await part.getByRole("button", { name: "Look for a better draft" }).count(), 0);
  }));

test("a finding is tried on, its numbers and levels seen, taken like any change and taken back", () =>
  journey(browser, { width: 1024, height: 768 }, async ({ studio, page }) => {
    const part = await wear(page, studio);
    await quickest(part);
    await part.getByRole("button", { name: "Put it on the form" }).click();
    const tries = part.getByRole("button", { name: /^Try it: / });
    await tries.first().waitFor({ timeout: 30_000 });
    const { fit } = await told(studio);
    const found = fit.found.filter((one) => one.changes.length > 0);
    assert.equal(await tries.count(), found.length);
    const last = found.at(-1);
    await tries.last().click();
    const compared = part.getByRole("group", { name: "Before and after" });
    await compared.waitFor({ timeout: 60_000 });
    const { proposed } = await told(studio);
    assert.equal(proposed.finding, last.key);
    for (const change of last.changes) await compared.getByText(`${change.name}: ${change.from} to ${change.to}`).waitFor();
    assert.equal(await compared.locator(".pairs tbody tr").count(), proposed.levels.length);
    assert.deepEqual(await axe(page), []);
    assert.equal(await sideways(page), 0);
    await compared.getByRole("button", { name: "Leave it" }).click();
    await until(async () => assert.equal(await compared.count(), 0));
    await tries.last().click();
    await compared.getByRole("button", { name: "Take it" }).click({ timeout: 60_000 });
    await isTaken(studio, SUIT, proposed);
    await part.getByText(/an older draft/).waitFor();
    await page.getByRole("button", { name: /^Back one: / }).first().click();
    await until(async () => assert.equal((await told(studio)).fit.is_current, true));
  }));

test("a better draft is looked for, taken and taken back", () =>
  journey(browser, {}, async ({ studio, page }) => {
    // A child's suit: a third of the mesh, so a third of the time.
    const suit = "example-18";
    const part = await wear(page, studio, suit);
    await quickest(part);
    await part.getByRole("button", { name: "Put it on the form" }).click();
    const look = part.getByRole("button", { name: "Look for a better draft" });
    await look.waitFor({ timeout: 30_000 });
    await look.click();
    const compared = part.getByRole("group", { name: "Before and after" });
    await compared.waitFor({ timeout: 90_000 });
    const { proposed } = await told(studio, suit);
    assert.equal(proposed.kind, "better");
    assert.equal(await compared.locator(".pairs tbody tr").count(), proposed.levels.length);
    for (const change of proposed.changes) await compared.getByText(`${change.name}: ${change.from} to ${change.to}`).waitFor();
    assert.deepEqual(await axe(page), []);
    const before = (await studio.get(`/api/v1/documents/${suit}`)).body.body.design;
    await compared.getByRole("button", { name: "Take it" }).click();
    await isTaken(studio, suit, proposed);
    await part.getByText(/an older draft/).waitFor();
    assert.equal(await compared.count(), 0);
    await page.getByRole("button", { name: /^Back one: took a better draft/ }).first().click();
    await until(async () => assert.deepEqual((await studio.get(`/api/v1/documents/${suit}`)).body.body.design, before));
    // What was taken is a proposal no more.
    await look.waitFor();
    assert.equal((await told(studio, suit)).proposed, null);
  }));

test("on a phone by night: nothing scrolls sideways, everything can be pressed with wet hands", () =>
  journey(browser, { width: 390, height: 844, touch: true, night: true }, async ({ studio, page }) => {
    const part = await wear(page, studio);
    await quickest(part);
    await part.getByRole("button", { name: "Put it on the form" }).click();
    await part.getByRole("group", { name: "Solved stretch ladder" }).waitFor({ timeout: 30_000 });
    assert.equal(await sideways(page), 0);
    const small = await part.locator("#wear-fitted").evaluate((fitted) =>
      [...fitted.querySelectorAll("button, summary")].filter((one) => {
        if (!one.checkVisibility()) return false;
        const box = one.getBoundingClientRect();
        const after = getComputedStyle(one, "::after");
        const grow = (side) => (after.content === "none" || after.position !== "absolute" ? 0 : -Number.parseFloat(after[side]) || 0);
        return box.height + grow("top") + grow("bottom") < 43.5;
      }).map((one) => one.textContent),
    );
    assert.deepEqual(small, []);
    assert.deepEqual(await axe(page), []);
  }));

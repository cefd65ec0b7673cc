/** Nothing typed is lost: a studio that ends and comes back, two tabs, reloads, going back and forward. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { change, choose, drawn, go, isKept, journey, openSection, openWindow, section, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** What the browser tells while nobody answers. */
const SILENCE = [/ERR_CONNECTION_REFUSED/, /ERR_INCOMPLETE_CHUNKED_ENCODING/, /ERR_CONNECTION_RESET/, /ERR_EMPTY_RESPONSE/, /ERR_SOCKET_NOT_CONNECTED/];
const SUIT = "example-14";
const kept = async (studio, path, document = SUIT) => {
  const { body } = await studio.get(`/api/v1/documents/${document}`);
  return path.split(".").reduce((at, key) => at?.[key], body.body);
};

test("the studio ends while the order is open: it is said, what is typed waits, and is kept when it is back", () =>
  journey(browser, { expects: SILENCE }, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#shape`);
    const shape = section(page, "Shape");
    await openSection(page, "Shape");
    await studio.stop();
    const pencil = page.locator(".head .kept");
    await until(async () => assert.match(await pencil.textContent(), /does not answer/));

    await change(shape, "Strap", "4.4");
    await until(async () => assert.match(await pencil.textContent(), /not kept: the studio does not answer\. What you typed waits here/));
    const strap = shape.locator(".line").filter({ has: page.getByRole("button", { name: /, change Strap$/ }) });
    assert.match(await strap.textContent(), /4\.4 cm/);
    assert.match(await strap.textContent(), /waits/);
    await change(shape, "Crotch width", "7.0");

    // Two in a row, and a third while it is still silent.
    await page.getByRole("button", { name: /, change notes on the order$/ }).click();
    await page.getByRole("textbox", { name: "notes on the order" }).fill("Typed in silence.");
    await page.getByRole("textbox", { name: "notes on the order" }).press("Control+Enter");
    await page.getByRole("button", { name: /^Typed in silence/ }).waitFor();

    await studio.start();
    await until(async () => assert.match(await pencil.textContent(), /^kept \d\d:\d\d$/), 20_000);
    await until(async () => assert.equal(await kept(studio, "design.strap_width"), "4.4 cm"), 20_000);
    await until(async () => assert.equal(await kept(studio, "design.crotch_width"), "7.0 cm"));
    await until(async () => assert.equal(await kept(studio, "notes"), "Typed in silence."));
    await until(async () => assert.doesNotMatch(await strap.textContent(), /waits/));
    await until(async () => assert.match(await strap.textContent(), /4\.4/));
    await page.reload();
    await drawn(page);
    await openSection(page, "Shape");
    assert.match(await strap.textContent(), /4\.4/);
  }));

test("a reload while the studio is silent loses nothing that was typed", () =>
  journey(browser, { expects: [...SILENCE, /ERR_/] }, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#shape`);
    const shape = section(page, "Shape");
    await openSection(page, "Shape");
    await studio.stop();
    await change(shape, "Strap", "4.6");
    await page.locator(".head .kept").getByText(/waits here/).waitFor();
    // The page itself comes from the studio, so the browser can only say that nobody answers.
    await page.reload().catch(() => undefined);
    await studio.start();
    // The browser's own page of refusal may still be on its way.
    await until(() => go(page, `${studio.url}/suits/${SUIT}#shape`));
    await until(async () => assert.equal(await kept(studio, "design.strap_width"), "4.6 cm"), 20_000);
    await until(async () => assert.match(await shape.getByRole("button", { name: /, change Strap$/ }).textContent(), /4\.6/));
  }));

test("two tabs: a change in one is seen in the other", () =>
  journey(browser, {}, async ({ studio, page, view }) => {
    const other = await view.context.newPage();
    await go(page, `${studio.url}/suits/${SUIT}`);
    await go(other, `${studio.url}/suits/${SUIT}`);
    await openSection(page, "Shape");
    await openSection(other, "Shape");
    await change(section(page, "Shape"), "Strap", "5.0");
    await until(async () =>
      assert.match(await section(other, "Shape").getByRole("button", { name: /, change Strap$/ }).textContent(), /5\.0/),
    );
    // The other way, on another document, while the first has a field open: what is being typed stays.
    await section(page, "Shape").getByRole("button", { name: /, change Crotch width$/ }).click();
    const typing = section(page, "Shape").getByRole("textbox", { name: /^Crotch width/ });
    await typing.fill("7.");
    await choose(section(other, "Shape"), "Back", "V");
    await until(async () => assert.ok(await section(page, "Shape").getByRole("radio", { name: "V", exact: true, checked: true }).first().isVisible()));
    assert.equal(await typing.inputValue(), "7.");
    await typing.fill("7.2");
    await typing.press("Enter");
    await until(async () => assert.equal(await kept(studio, "design.crotch_width"), "7.2 cm"));
    assert.equal(await kept(studio, "design.back"), "v");
  }));

for (const [choice, ends] of [
  ["Keep yours", "5.6 cm"],
  ["Keep theirs", "5.2 cm"],
]) {
  test(`two tabs change one field: a question, "${choice}" works, nothing is lost`, () =>
    journey(browser, { expects: [/status of 409/] }, async ({ studio, page, view }) => {
      const other = await view.context.newPage();
      await go(page, `${studio.url}/suits/${SUIT}`);
      await go(other, `${studio.url}/suits/${SUIT}`);
      await openSection(page, "Shape");
      await openSection(other, "Shape");
      // The second tab has not heard of the first one's change yet when it sends its own.
      await other.route("**/api/v1/events", (route) => route.abort());
      const revision = (await studio.get(`/api/v1/documents/${SUIT}`)).body.revision;
      await other.route("**/api/v1/edits", async (route) => {
        const sent = route.request().postDataJSON();
        await route.continue({ postData: JSON.stringify({ ...sent, parts: sent.parts.map((part) => ({ ...part, base: revision })) }) });
      }, { times: 1 });
      await change(section(page, "Shape"), "Strap", "5.2");
      await until(async () => assert.equal(await kept(studio, "design.strap_width"), "5.2 cm"));
      // And a different field beside it, which needs no question.
      await change(section(other, "Shape"), "Strap", "5.6");
      const question = other.locator(".note").filter({ hasText: "was changed somewhere else while you changed it" });
      await question.waitFor();
      const says = await question.textContent();
      assert.match(says, /Strap width/);
      assert.match(says, /Yours: 5\.6 cm/);
      assert.match(says, /Theirs: 5\.2 cm/);
      assert.equal(await kept(studio, "design.strap_width"), "5.2 cm", "the second overwrote the first without asking");
      await question.getByRole("button", { name: choice }).click();
      await question.waitFor({ state: "detached" });
      await until(async () => assert.equal(await kept(studio, "design.strap_width"), ends));
      for (const one of [page, other]) {
        await until(async () =>
          assert.match(
            await section(one, "Shape").getByRole("button", { name: /, change Strap$/ }).textContent(),
            new RegExp(ends.slice(0, 3).replace(".", "\\.")),
          ),
        );
      }
      const history = (await studio.get(`/api/v1/suits/${SUIT}/history`)).body.map((one) => one.words).join("\n");
      assert.match(history, /5\.2 cm/, "the first tab's change is not in the history");
    }));
}

test("two tabs change different fields at the same revision: both stand, without a question", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const { body } = await studio.get(`/api/v1/documents/${SUIT}`);
    const edit = (path, value) =>
      studio.post("/api/v1/edits", { parts: [{ document: SUIT, base: body.revision }], changes: [{ document: SUIT, path, value }], words: "" });
    const replies = await Promise.all([edit("design.strap_width", "5.0 cm"), edit("design.crotch_width", "7.4 cm"), edit("notes", "third")]);
    assert.deepEqual(replies.map((one) => one.status), [200, 200, 200]);
    assert.ok(replies.some((one) => one.body.merged));
    await go(page, `${studio.url}/suits/${SUIT}`);
    await openSection(page, "Shape");
    assert.match(await section(page, "Shape").getByRole("button", { name: /, change Strap$/ }).textContent(), /5\.0/);
    assert.match(await section(page, "Shape").getByRole("button", { name: /, change Crotch width$/ }).textContent(), /7\.4/);
  }));

test("reload, back and forward keep the place and what was changed", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, studio.url);
    await page.getByRole("link", { name: /14 Maren/ }).click();
    await page.getByRole("heading", { level: 1, name: /Maren/ }).waitFor();
    const marks = page.getByRole("navigation", { name: "Sections" });
    const top = (name) => section(page, name).evaluate((element) => Math.round(element.getBoundingClientRect().top));

    for (const name of ["Cloth", "Shape", "Wear", "Lay", "Sew", "Paper", "Try-on"]) {
      await marks.getByRole("link", { name: new RegExp(`^\\d? ?${name} ?:`) }).click();
      const hash = name.toLowerCase();
      await page.waitForFunction((wanted) => location.hash === `#${wanted}`, hash);
      await until(async () => assert.ok(await section(page, name).locator("> .body").isVisible(), `${name} does not open`));
      await page.reload();
      await drawn(page);
      assert.ok(await section(page, name).locator("> .body").isVisible(), `${name} is folded after a reload`);
      await until(async () => {
        const at = await top(name);
        const atEnd = await page.evaluate(() => innerHeight + scrollY >= document.documentElement.scrollHeight - 2);
        assert.ok(Math.abs(at) < 120 || atEnd, `${name} stands at ${at} px after a reload`);
      });
    }
    // Back through the sections and to the line; forward again.
    await page.goBack();
    await page.waitForFunction(() => location.hash === "#paper");
    await until(async () => assert.ok(Math.abs(await top("Paper")) < 450, `Paper stands at ${await top("Paper")} px`));
    await page.goForward();
    await page.waitForFunction(() => location.hash === "#try-on");

    // A value and a choice over a reload.
    await choose(section(page, "Shape"), "Leg", "High");
    await change(section(page, "Shape"), "Strap", "4.8");
    await isKept(page);
    await page.reload();
    await drawn(page);
    assert.match(await section(page, "Shape").getByRole("button", { name: /, change Strap$/ }).textContent(), /4\.8/);
    await section(page, "Shape").getByRole("radiogroup", { name: "Leg" }).getByRole("radio", { name: "High", exact: true, checked: true }).waitFor();

    // The bench keeps its step.
    await go(page, `${studio.url}/suits/${SUIT}/bench`);
    const heading = page.locator("main h1");
    const first = await heading.textContent();
    await page.getByRole("button", { name: "Skip for now" }).click();
    await until(async () => assert.notEqual(await heading.textContent(), first));
    const second = await heading.textContent();
    await page.reload();
    await drawn(page);
    assert.equal(await heading.textContent(), second);
    await page.goBack();
    await page.waitForFunction(() => !location.pathname.endsWith("/bench"));
    await drawn(page);
    await page.goForward();
    await page.waitForFunction(() => location.pathname.endsWith("/bench"));
    await until(async () => assert.equal(await heading.textContent(), second));
  }));

test("going back finds the section of the address, though the page has grown above it", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}`);
    const marks = page.getByRole("navigation", { name: "Sections" });
    await marks.getByRole("link", { name: /Paper/ }).click();
    await page.waitForFunction(() => location.hash === "#paper");
    await marks.getByRole("link", { name: /Try-on/ }).click();
    await page.waitForFunction(() => location.hash === "#try-on");
    await page.reload();
    await drawn(page);
    await openSection(page, "Cloth");
    await openSection(page, "Shape");
    await change(section(page, "Shape"), "Strap", "4.1");
    await page.goBack();
    await until(async () => {
      const at = await section(page, "Paper").evaluate((element) => element.getBoundingClientRect().top);
      assert.ok(Math.abs(at) < 150, `Paper stands at ${at} px`);
      assert.match(page.url(), /#paper$/);
    });
  }));

test("a try-on note begun and not kept is still there after a reload", () =>
  journey(browser, {}, async ({ studio, page }) => {
    await go(page, `${studio.url}/suits/${SUIT}#try-on`);
    await page.getByRole("button", { name: "Write a try-on note" }).click();
    await page.getByLabel("In her own words, a line for each thing").fill("The back stands away.");
    await page.reload();
    await drawn(page);
    assert.equal(await page.getByLabel("In her own words, a line for each thing").inputValue(), "The back stands away.");
  }));

/** The sample book: a scrap the plan asks for is opened filled in; a seam that pops early changes the plan. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, change, choose, go, isKept, journey, section, sideways, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

/** The first scrap of a seam the plan asks for, with its place. */
async function scrapOf(studio) {
  for (let at = 0; at < 12; at += 1) {
    const { body } = await studio.get(`/api/v1/suits/example-14/scraps/${at}`);
    if (body.body?.of === "stitch") return { at, ...body };
  }
  throw new Error("no scrap of a stitch");
}

test("a scrap is opened filled in, pops early, and the plan chooses another stitch", () =>
  journey(browser, {}, async ({ studio, page }) => {
    const scrap = await scrapOf(studio);
    await go(page, `${studio.url}/samples?for=example-14&scrap=${scrap.at}`);
    const stitches = section(page, "Stitches");
    await stitches.getByRole("button", { name: "Write it down" }).click();
    const name = scrap.body.name;
    const own = stitches.getByRole("listitem").filter({ has: page.getByRole("heading", { name, exact: true }) });
    await own.getByText(/Stretched is missing/i).waitFor();
    await change(own, "Stretched to", "11");
    await change(own, "First stitch popped at", "12");
    await own.getByText(/is shorter than where the first stitch popped/).waitFor();
    await change(own, "First stitch popped at", "10.4");
    await choose(own, "Verdict", "Not yet");
    await isKept(page);
    await own.getByRole("button", { name: /why so far\?/ }).click();
    await own.getByText("A stitch popped there: that far it goes and no further.").waitFor();
    assert.deepEqual(await axe(page), []);
    assert.equal(await sideways(page), 0);
    // That very setting is no longer asked for a scrap: it was sewn, and reaches 4 %.
    await until(async () => {
      const { body } = await studio.get(`/api/v1/suits/example-14/scraps/${scrap.at}`);
      const still = body.body;
      assert.ok(!still || still.stitch !== scrap.body.stitch || still.width !== scrap.body.width, JSON.stringify(still));
    });
  }));

/** The workroom: an overlocker taken out and put back changes the stitches of a suit; what cannot be is said at its line. */
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browse } from "../harness.mjs";
import { axe, change, go, isKept, journey, section, sideways, until } from "../kit.mjs";

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser?.close());

const threads = async (studio) => (await studio.get("/api/v1/suits/example-14/shopping")).body.list.threads.join(" ");
const machines = async (studio) => (await studio.get("/api/v1/documents/workroom")).body.body.machines;

test("machines come and go, and the suit is planned for those that are there", () =>
  journey(browser, {}, async ({ studio, page }) => {
    assert.match(await threads(studio), /looper/i, "an overlocker is there");
    await go(page, `${studio.url}/workroom`);
    const room = section(page, "Machines");
    await room.getByText("Suits are planned for: Zigzag machine and Four-thread overlocker.").waitFor();
    assert.deepEqual(await axe(page), []);
    assert.equal(await sideways(page), 0);

    await room.getByRole("button", { name: /^Unfold Four-thread overlocker/ }).click();
    await room.getByRole("button", { name: /^Take out Four-thread overlocker/ }).click();
    await isKept(page);
    await until(async () => assert.equal((await machines(studio)).length, 1));
    assert.doesNotMatch(await threads(studio), /looper/i);
    await room.getByRole("button", { name: "Back one: Four-thread overlocker out" }).click();
    await until(async () => assert.match(await threads(studio), /looper/i));

    // One more, as it is sold; then it is made one's own.
    await room.getByRole("button", { name: "Add a machine" }).click();
    await room.getByRole("radio", { name: "Coverstitch machine" }).click();
    await room.getByRole("button", { name: "Add the machine" }).click();
    await until(async () => assert.equal((await machines(studio)).length, 3));
    const own = room.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "Coverstitch machine" }) });
    await change(own, "Width of its foot", "90");
    await own.getByText(/out of range|Foot width is/i).first().waitFor();
    await change(own, "Width of its foot", "9");
    await until(async () => assert.equal((await studio.get("/api/v1/room")).body.faults.length, 0));
  }));

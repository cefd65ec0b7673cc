/**
 * The program is taken away in the middle of edits, again and again: every edit it said it kept must be there afterwards.
 *
 * `KILLS` is how often (10 unless said), `SEED` what the moments are drawn from.
 */
import assert from "node:assert/strict";
import { test } from "node:test";
import { openStudio, pause } from "../kit.mjs";

const KILLS = Number(process.env.KILLS ?? 10);
const SEED = Number(process.env.SEED ?? 20261114);
const SUIT = "example-14";
/** Two documents and three fields, so that edits of one and of several documents are both cut off. */
const WEARER = "example-maren";

/** Numbers from 0 to 1 that are the same for the same seed (mulberry32, public domain). */
function drawn(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

test(`killed ${KILLS} times in the middle of edits, every edit that was answered is kept`, async () => {
  const random = drawn(SEED);
  const studio = await openStudio();
  try {
    let typed = 0;
    let lost = 0;
    let unanswered = 0;
    let answered = 0;
    /** Last values that were answered, and those sent after them without an answer: either may stand. */
    const sure = { notes: null, name: null };
    const words = [];
    const revisions = new Map();
    for (let kill = 0; kill < KILLS; kill += 1) {
      for (const document of [SUIT, WEARER]) {
        const { status, body } = await studio.get(`/api/v1/documents/${document}`);
        assert.equal(status, 200);
        revisions.set(document, body.revision);
      }
      const over = { at: performance.now() + 5 + random() * 220, killed: false };
      const maybe = { notes: new Set(), name: new Set() };
      const killing = pause(over.at - performance.now()).then(async () => {
        over.killed = true;
        await studio.kill();
      });
      while (!over.killed) {
        typed += 1;
        const both = typed % 3 === 0;
        const value = `edit ${typed}`;
        const sentence = `kill check ${typed}`;
        const parts = [{ document: SUIT, base: revisions.get(SUIT) }];
        const changes = [{ document: SUIT, path: "notes", value }];
        if (both) {
          parts.push({ document: WEARER, base: revisions.get(WEARER) });
          changes.push({ document: WEARER, path: "notes", value });
        }
        try {
          const { status, body } = await studio.post("/api/v1/edits", { parts, changes, words: sentence });
          assert.equal(status, 200, JSON.stringify(body));
          for (const stamp of body.documents) revisions.set(stamp.id, stamp.revision);
          answered += 1;
          words.push(sentence);
          sure.notes = value;
          if (both) sure.name = value;
        } catch (error) {
          if (error instanceof assert.AssertionError) throw error;
          unanswered += 1;
          maybe.notes.add(value);
          if (both) maybe.name.add(value);
          break;
        }
      }
      await killing;
      await studio.start();
      const suit = (await studio.get(`/api/v1/documents/${SUIT}`)).body;
      const wearer = (await studio.get(`/api/v1/documents/${WEARER}`)).body;
      if (suit.body.notes !== sure.notes && !maybe.notes.has(suit.body.notes)) lost += 1;
      if (sure.name !== null && wearer.body.notes !== sure.name && !maybe.name.has(wearer.body.notes)) lost += 1;
      // An edit of two documents is kept in both or in neither.
      for (const value of maybe.name) {
        assert.equal(suit.body.notes === value, wearer.body.notes === value, `${value} is kept in one of two documents`);
      }
      if (maybe.notes.has(suit.body.notes)) sure.notes = suit.body.notes;
      if (maybe.name.has(wearer.body.notes)) sure.name = wearer.body.notes;
    }
    const { status, body: history } = await studio.get(`/api/v1/suits/${SUIT}/history`);
    assert.equal(status, 200);
    const told = new Set(history.map((entry) => entry.words));
    const missing = words.filter((sentence) => !told.has(sentence));
    assert.deepEqual(missing, [], "answered edits that the history does not know");
    assert.equal(new Set(history.map((entry) => entry.seq)).size, history.length, "the history repeats itself");
    assert.equal(lost, 0, `${lost} of ${answered} answered edits were lost`);
    assert.ok(answered > KILLS, `only ${answered} edits were answered in ${KILLS} lives`);
    console.log(`# ${KILLS} kills, ${answered} edits answered, ${unanswered} cut off, none lost`);
  } finally {
    await studio.close();
  }
});

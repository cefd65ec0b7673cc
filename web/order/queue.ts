/**
 * Edits on their way: sent one at a time in the order they were typed, kept in this tab's storage until the studio has
 * them, so that neither a stopped program nor a reload of the page loses what was typed.
 *
 * Each edit is based on the revisions that were on the page when it was typed; that is what lets the studio see that
 * somebody else changed the same value meanwhile. An edit of ours moves the bases of those typed after it.
 */
import { computed, signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import type { Set as Change, Stamp } from "../api/types.js";
import { Failed } from "../lib/api.js";
import { recall, remember } from "../lib/tab.js";
import { sendEdits } from "./studio.js";
import type { Sent } from "./studio.js";

/** Asks a silent studio again after this. */
const AGAIN_AFTER_MS = 2000;

/** One edit that is not kept yet. */
export interface Waiting {
  readonly changes: readonly Change[];
  readonly words: string;
  /** Revision per document. */
  readonly base: Readonly<Record<string, number>>;
}

/** What came of an edit; `waits` when nobody answered. */
export type Outcome = "kept" | "clash" | "waits";

interface Entry extends Waiting {
  readonly settle?: { readonly done: (outcome: Outcome) => void; readonly fail: (error: unknown) => void };
}

/** Whom the queue tells. */
export interface QueueTold {
  /** Documents have new revisions. */
  readonly onKept: (stamps: readonly Stamp[], edit: Waiting) => void;
  readonly onClash: (sent: Sent & { kind: "clash" }, edit: Waiting) => void;
  /** Refused, and nobody waits at the field any more: it comes from before a reload or from a silence. */
  readonly onRefused: (error: Failed, edit: Waiting) => void;
  /** Everything is sent, and the last of it was waiting for nobody. */
  readonly onEmpty: () => void;
}

/** The queue of one suit. */
export interface Queue {
  readonly waiting: ReadonlySignal<readonly Waiting[]>;
  /** True while the studio does not answer. */
  readonly silent: ReadonlySignal<boolean>;
  add(edit: Waiting): Promise<Outcome>;
  /** Tries at once. */
  nudge(): void;
  stop(): void;
}

/** Opens the queue of `suit` with what an earlier visit in this tab left in it. */
export function openQueue(suit: string, told: QueueTold): Queue {
  const store = `waiting.${suit}`;
  const entries = signal<readonly Entry[]>(read(store));
  const silent = signal(false);
  let busy = false;
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const set = (next: readonly Entry[]): void => {
    entries.value = next;
    remember(store, next.length === 0 ? null : next.map(({ changes, words, base }) => ({ changes, words, base })));
  };

  const run = async (): Promise<void> => {
    clearTimeout(timer);
    if (busy || stopped) return;
    busy = true;
    try {
      for (;;) {
        const entry = entries.peek()[0];
        if (!entry || stopped) break;
        if (!(await sendOne(entry))) break;
      }
    } finally {
      busy = false;
    }
  };

  /** False when the studio is silent. */
  const sendOne = async (entry: Entry): Promise<boolean> => {
    const documents = [...new globalThis.Set(entry.changes.map((change) => change.document))];
    try {
      const sent = await sendEdits({
        parts: documents.map((document) => ({ document, base: entry.base[document] ?? 0 })),
        changes: entry.changes,
        words: entry.words,
      });
      silent.value = false;
      const rest = entries.peek().slice(1);
      if (sent.kind === "clash") {
        set(rest);
        told.onClash(sent, entry);
        entry.settle?.done("clash");
      } else {
        set(rest.map((later) => moved(later, entry, sent.documents)));
        told.onKept(sent.documents, entry);
        entry.settle?.done("kept");
      }
    } catch (error) {
      if (!(error instanceof Failed) || error.kind === "unreached") {
        silent.value = true;
        // The field is let go: what was typed is shown as waiting.
        set(entries.peek().map(({ settle, ...rest }) => (settle?.done("waits"), rest)));
        if (!stopped) timer = setTimeout(() => void run(), AGAIN_AFTER_MS);
        return false;
      }
      silent.value = false;
      set(entries.peek().slice(1));
      if (entry.settle) entry.settle.fail(error);
      else told.onRefused(error, entry);
    }
    // Whoever waits at a field reads the order anew herself.
    if (entries.peek().length === 0 && !entry.settle) told.onEmpty();
    return true;
  };

  const nudge = (): void => void run();
  addEventListener("online", nudge);
  if (entries.peek().length > 0) nudge();
  return {
    waiting: computed(() => entries.value),
    silent,
    add: (edit) =>
      new Promise((done, fail) => {
        // While the studio is silent a new edit waits like the others; its field is let go at once.
        if (silent.peek()) {
          set([...entries.peek(), edit]);
          done("waits");
        } else set([...entries.peek(), { ...edit, settle: { done, fail } }]);
        nudge();
      }),
    nudge,
    stop: () => {
      stopped = true;
      clearTimeout(timer);
      removeEventListener("online", nudge);
    },
  };
}

/** A later edit typed on the same revision as the one just kept is now based on the new one. */
function moved(later: Entry, sent: Waiting, stamps: readonly Stamp[]): Entry {
  const base = { ...later.base };
  for (const stamp of stamps) {
    if (base[stamp.id] !== undefined && base[stamp.id] === sent.base[stamp.id]) base[stamp.id] = stamp.revision;
  }
  return { ...later, base };
}

function read(store: string): readonly Entry[] {
  const held = recall(store);
  return Array.isArray(held) ? (held as Entry[]).filter((entry) => Array.isArray(entry?.changes)) : [];
}

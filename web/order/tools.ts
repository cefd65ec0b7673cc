/** The order of one suit, kept current: read, edited, previewed, and read again when another tab changed it. */
import { batch, computed, signal } from "@preact/signals";
import type { ReadonlySignal, Signal } from "@preact/signals";
import type { OrderView, Preview, Proposal, Set as Change, Stamp, Why } from "../api/types.js";
import { Failed, get, isAbort, post } from "../lib/api.js";
import { jumpTo } from "../lib/focus.js";
import type { Problem } from "../lib/quantity.js";
import { kept } from "../lib/store.js";
import { fieldId, sectionOf } from "./context.js";
import type { Clash, Looking, OpenWhy, OrderTools, SectionId, Tried } from "./context.js";
import { asReason } from "./quantity.js";
import { openQueue } from "./queue.js";
import type { Waiting } from "./queue.js";
import { API, suitAt } from "./studio.js";

/** Several documents change at once; the order is read once for all of them. */
const SETTLE_MS = 60;
/** A stream of news that the browser gave up is opened again after this. */
const LISTEN_AGAIN_MS = 3000;

/** Somebody took the order out, here or on another screen: what still stands on the page can be read, not changed. */
const TAKEN_OUT = "this order was taken out";

/** What the order page has beside the tools. */
export interface Order {
  readonly tools: OrderTools;
  readonly silent: ReadonlySignal<boolean>;
  readonly waiting: ReadonlySignal<readonly Waiting[]>;
  /** Edits from before a reload or a silence that the studio refused when it came back. */
  readonly refused: Signal<readonly { readonly words: string; readonly problem: Problem }[]>;
  /** Set by the page: opens a section. */
  openSection: (id: SectionId) => void;
  stop(): void;
}

/** Reads an order. Rejects with [Failed] as `lib/api` does. */
export function readOrder(id: string, asked?: AbortSignal): Promise<OrderView> {
  return get<OrderView>(suitAt(id), asked ? { signal: asked } : {});
}

/** Starts keeping `first` current, until `stop`. */
export function openOrder(id: string, first: OrderView): Order {
  const order = signal(first);
  const why = signal<OpenWhy | null>(null);
  const troubles = signal<ReadonlyMap<string, Problem>>(new Map());
  const clashes = signal<readonly Clash[]>([]);
  const tried = signal<Tried | null>(null);
  const wanted = signal<string | null>(null);
  /** Kept, but the order as it stands here was read before: what was typed is shown until it is read again. */
  const unread = signal<readonly { readonly edit: Waiting; readonly stamps: readonly Stamp[] }[]>([]);
  const refused = signal<readonly { readonly words: string; readonly problem: Problem }[]>([]);
  let stopped = false;

  // ---- reading ----
  let reading: Promise<void> | null = null;
  let readAgain = false;
  const reload = (): Promise<void> => {
    if (reading) {
      readAgain = true;
      return reading;
    }
    reading = (async () => {
      do {
        readAgain = false;
        const next = await readOrder(id);
        if (stopped) return;
        batch(() => {
          order.value = next;
          unread.value = unread.peek().filter(({ stamps }) => stamps.some((stamp) => isOlder(next.documents, stamp)));
        });
      } while (readAgain);
    })().finally(() => {
      reading = null;
    });
    return reading;
  };
  const reloadQuietly = (): void => {
    reload().then(
      () => {
        if (kept.peek() === TAKEN_OUT) kept.value = "";
      },
      (error: unknown) => {
        if (stopped || !(error instanceof Failed)) return;
        if (error.kind === "unreached") kept.value = silence(queue.waiting.peek().length);
        else if (error.kind === "gone") kept.value = TAKEN_OUT;
      },
    );
  };

  // ---- editing ----
  const setTrouble = (changes: readonly Change[], problem: Problem | null): void => {
    const next = new Map(troubles.peek());
    for (const change of changes) {
      if (problem) next.set(fieldId(change.path), problem);
      else next.delete(fieldId(change.path));
    }
    troubles.value = next;
  };
  const queue = openQueue(id, {
    onKept: (stamps, edit) => {
      batch(() => {
        order.value = { ...order.peek(), documents: stamped(order.peek().documents, stamps) };
        unread.value = [...unread.peek(), { edit, stamps }];
        setTrouble(edit.changes, null);
        kept.value = `kept ${clock()}`;
      });
    },
    onClash: (sent, edit) => {
      const told = sent.clashes.map((clash) => ({ ...clash, edit: edit.changes }));
      const same = (a: Clash, b: Clash): boolean => a.document === b.document && a.path === b.path;
      clashes.value = [...clashes.peek().filter((old) => !told.some((one) => same(old, one))), ...told];
      kept.value = "not kept: somebody else changed it too";
      for (const clash of told) {
        const section = sectionOf(clash.path, kindOf(order.peek(), clash.document));
        if (section) tidy.openSection(section);
      }
      reloadQuietly();
    },
    onRefused: (error, edit) => {
      setTrouble(edit.changes, error.first);
      refused.value = [...refused.peek(), { words: edit.words, problem: error.first }];
      kept.value = "not kept";
    },
    onEmpty: reloadQuietly,
  });
  const based = async (changes: readonly Change[]): Promise<Record<string, number>> => {
    const base: Record<string, number> = {};
    for (const { document } of changes) {
      if (base[document] !== undefined) continue;
      const known = order.peek().documents.find((stamp) => stamp.id === document);
      base[document] = known?.revision ?? (await revisionOf(document));
    }
    return base;
  };
  const keep = async (changes: readonly Change[], words = ""): Promise<void> => {
    if (changes.length === 0) return;
    setTrouble(changes, null);
    const outcome = await queue.add({ changes, words, base: await based(changes) });
    if (outcome === "waits") kept.value = silence(queue.waiting.peek().length);
    else if (outcome === "kept") await reload().catch(() => undefined);
  };
  const edit = async (changes: readonly Change[], words = ""): Promise<boolean> => {
    try {
      await keep(changes, words);
      return !clashes.peek().some((clash) => changes.some((change) => change.document === clash.document && change.path === clash.path));
    } catch (error) {
      const problem = error instanceof Failed ? error.first : { what: "This was not kept.", next: "Try again." };
      setTrouble(changes, problem);
      kept.value = "not kept";
      return false;
    }
  };
  const settle = async (clash: Clash, which: "yours" | "theirs"): Promise<void> => {
    await reload().catch(() => undefined);
    clashes.value = clashes.peek().filter((one) => one.edit !== clash.edit);
    if (which === "yours") await edit(clash.edit);
    else kept.value = `kept theirs ${clock()}`;
  };

  const undo = async (way: "back" | "forward"): Promise<void> => {
    try {
      await post(suitAt(id, `/${way}`), {});
      kept.value = `kept ${clock()}`;
    } catch (error) {
      kept.value = error instanceof Failed ? `not done: ${error.first.what}` : "not done";
    }
    await reload().catch(() => undefined);
  };

  // ---- looking ----
  const preview = (changes: readonly Change[], how: Looking = {}): Promise<Preview> =>
    post<Preview>(
      suitAt(id, "/preview"),
      { changes, ...(how.drag && { drag: how.drag }), wear: how.wear ?? false },
      how.signal ? { signal: how.signal } : {},
    );
  let looking: AbortController | null = null;
  const leaveTried = (): void => {
    looking?.abort();
    looking = null;
    tried.value = null;
  };
  const tryThis = (proposal: Proposal): void => {
    leaveTried();
    const asked = new AbortController();
    looking = asked;
    tidy.openSection("wear");
    tried.value = { proposal, preview: null, problem: null };
    preview(proposal.changes, { wear: true, signal: asked.signal }).then(
      (seen) => {
        if (looking === asked) tried.value = { proposal, preview: seen, problem: null };
      },
      (error: unknown) => {
        if (looking !== asked || isAbort(error)) return;
        tried.value = { proposal, preview: null, problem: error instanceof Failed ? error.first : { what: "It could not be drawn." } };
      },
    );
  };
  const keepTried = async (): Promise<void> => {
    const held = tried.peek();
    if (!held) return;
    const { changes, words } = held.preview ?? { changes: held.proposal.changes, words: "" };
    if (await edit(changes, words)) leaveTried();
  };

  // ---- why ----
  const closeWhy = (): void => {
    const open = why.peek();
    why.value = null;
    if (open?.anchor.isConnected) open.anchor.focus();
  };
  const openWhy = (key: string, anchor: HTMLElement): void => {
    if (why.peek()?.key === key && why.peek()?.anchor === anchor) {
      closeWhy();
      return;
    }
    const place = anchor.closest<HTMLElement>("[data-why-place]")?.dataset["whyPlace"] ?? "";
    const open: OpenWhy = { key, anchor, place, reason: null, problem: null };
    why.value = open;
    get<Why>(suitAt(id, `/why/${encodeURIComponent(key)}`)).then(
      (answer) => {
        if (why.peek() === open) why.value = { ...open, reason: asReason(answer) };
      },
      (error: unknown) => {
        if (why.peek() === open) {
          why.value = { ...open, problem: error instanceof Failed ? error.first : { what: "The reason could not be fetched." } };
        }
      },
    );
  };

  // ---- other tabs ----
  let timer: ReturnType<typeof setTimeout> | undefined;
  let again: ReturnType<typeof setTimeout> | undefined;
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(reloadQuietly, SETTLE_MS);
  };
  let news: EventSource | null = null;
  let isCut = false;
  const listen = (): void => {
    const source = new EventSource(`${API}/events`);
    news = source;
    source.addEventListener("open", () => {
      queue.nudge();
      if (!isCut) return;
      // What changed while nothing was heard is read at once.
      isCut = false;
      if (kept.peek() === silence(0)) kept.value = "";
      soon();
    });
    source.addEventListener("error", () => {
      if (stopped) return;
      isCut = true;
      // Only the stream may be cut: reading the order says whether the studio answers.
      soon();
      if (source.readyState === EventSource.CLOSED) again = setTimeout(listen, LISTEN_AGAIN_MS);
    });
    source.addEventListener("changed", (event) => {
      const told = JSON.parse(String((event as MessageEvent).data)) as { documents: readonly Stamp[] };
      const ours = order.peek().documents;
      // A version or a photo changes no document: its news come without a revision.
      const isNew = ({ id: changed, revision }: Stamp): boolean =>
        ours.some((held) => held.id === changed && (revision === 0 || held.revision < revision));
      if (told.documents.some(isNew)) soon();
    });
    // Everything may be different: a backup was put back, or this page fell behind.
    source.addEventListener("reloaded", soon);
  };
  listen();

  const tools: OrderTools = {
    order,
    get units() {
      return order.value.suit.units === "in" ? "in" : "cm";
    },
    edit,
    keep,
    preview,
    openWhy,
    closeWhy,
    why,
    reload,
    undo,
    waiting: (document, path) => {
      const kept = unread.value.map((one) => one.edit);
      for (const entry of [...kept, ...queue.waiting.value].reverse()) {
        const found = entry.changes.find((change) => change.document === document && change.path === path);
        if (found) return found.value;
      }
      return undefined;
    },
    troubles,
    clashes,
    settle,
    tryThis,
    tried,
    keepTried,
    leaveTried,
    goToField: (path, section) => {
      const where = section ?? sectionOf(path);
      if (where) tidy.openSection(where);
      wanted.value = path;
      afterDrawing(() => {
        const line = document.getElementById(fieldId(path)) ?? nearest(path);
        if (!line) {
          if (where) jumpTo(where);
          wanted.value = null;
          return;
        }
        line.scrollIntoView({ block: "center" });
        const inside = line.querySelector<HTMLElement>(CHOSEN) ?? line.querySelector<HTMLElement>(TOUCHABLE);
        (line.matches(TOUCHABLE) ? line : inside)?.focus({ preventScroll: true });
        wanted.value = null;
      });
    },
    wanted,
  };
  const tidy: Order = {
    tools,
    silent: queue.silent,
    waiting: computed(() => queue.waiting.value),
    refused,
    openSection: () => undefined,
    stop: () => {
      stopped = true;
      news?.close();
      clearTimeout(timer);
      clearTimeout(again);
      looking?.abort();
      queue.stop();
      kept.value = "";
    },
  };
  return tidy;
}

const TOUCHABLE = 'a[href], button, input, select, textarea, [tabindex]:not([tabindex="-1"])';
const CHOSEN = '[aria-checked="true"]';

/** A note may name a value inside what a field holds, or the document's part a field belongs to. */
function nearest(path: string): HTMLElement | null {
  const parts = path.split(".");
  for (let n = parts.length - 1; n > 0; n -= 1) {
    const found = document.getElementById(fieldId(parts.slice(0, n).join(".")));
    if (found) return found;
  }
  return document.querySelector<HTMLElement>(`[id^="${CSS.escape(fieldId(path))}-"]`);
}

/** After the next two frames: a section that was just opened is drawn by then. */
function afterDrawing(act: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(act));
}

/** Revision of a document that is none of the order's; 0 for a workroom nobody has written yet. */
async function revisionOf(document: string): Promise<number> {
  try {
    return (await get<Stamp>(`${API}/documents/${encodeURIComponent(document)}`)).revision;
  } catch (error) {
    // Without an answer the edit waits like any other, and the studio compares it when it is back.
    if (error instanceof Failed && (error.kind === "gone" || error.kind === "unreached")) return 0;
    throw error;
  }
}

function stamped(held: readonly Stamp[], fresh: readonly Stamp[]): Stamp[] {
  return held.map((stamp) => fresh.find((one) => one.id === stamp.id) ?? stamp);
}

/** Whether an order was read before a document came to a revision. */
function isOlder(held: readonly Stamp[], stamp: Stamp): boolean {
  return held.some((one) => one.id === stamp.id && one.revision < stamp.revision);
}

/** Kind of one of the order's documents. */
export function kindOf(order: OrderView, document: string): string {
  return order.documents.find((stamp) => stamp.id === document)?.kind ?? "suit";
}

function silence(waiting: number): string {
  return waiting > 0 ? "not kept: the studio does not answer. What you typed waits here." : "the studio does not answer";
}

/** `14:02`. */
function clock(): string {
  const now = new Date();
  return `${String(now.getHours()).padStart(2, "0")}:${String(now.getMinutes()).padStart(2, "0")}`;
}

/**
 * A handle in the hand: where it should be is asked of the studio while it moves, the latest wish alone, one at a time;
 * what comes back is drawn until it is let go, and then kept as an edit.
 *
 * Every answer drawn leaves a measure `handle-request`, from the request to the pieces in the page.
 */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import type { Preview, ShapeView } from "../api/types.js";
import { Failed, latest } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import type { OrderTools } from "../order/context.js";

/** What is in the hand. */
export interface Held {
  readonly handle: string;
  /** The order's own shape, for the old line. */
  readonly before: ShapeView;
  readonly seen: { readonly by: number; readonly preview: Preview; readonly asked: number } | null;
  /** Why it cannot go further. */
  readonly problem: Problem | null;
  /** Let go, on its way to be kept. */
  readonly isKept: boolean;
}

/** The hand. */
export interface Moving {
  readonly held: ReadonlySignal<Held | null>;
  /** How far it should be from where it was, mm along its way. No signal: a move draws nothing before it is answered. */
  by(): number;
  /** Moves the handle to `by` mm from where it was; takes it up first. */
  to(handle: string, by: number): void;
  /** Lets go: what is seen is kept. */
  keep(): Promise<void>;
  /** Puts it back. */
  back(): void;
}

/** A hand for the handles of one order. */
export function newMoving(tools: OrderTools): Moving {
  const held = signal<Held | null>(null);
  let by = 0;
  const ask = latest<{ readonly handle: string; readonly by: number }>(async (wish) => {
    if (held.peek()?.handle !== wish.handle) return;
    await look(wish);
  });
  const look = async (wish: { readonly handle: string; readonly by: number }): Promise<void> => {
    const asked = performance.now();
    try {
      const preview = await tools.preview([], { drag: { handle: wish.handle, by_mm: wish.by } });
      const now = held.peek();
      if (now && preview.shape.pieces.length === 0) {
        // There it cannot be drafted: the pieces stay where they could be.
        const found = preview.shape.head.notes[0];
        const what = found?.says ?? preview.shape.head.summary;
        held.value = { ...now, problem: { what, ...(found && found.next !== "" && { next: found.next }) } };
      } else if (now?.handle === wish.handle) held.value = { ...now, seen: { by: wish.by, preview, asked }, problem: null };
    } catch (error) {
      const now = held.peek();
      const problem = error instanceof Failed ? error.first : { what: "This could not be drawn." };
      if (now?.handle === wish.handle) held.value = { ...now, problem };
    }
  };
  return {
    held,
    by: () => by,
    to: (handle, wanted) => {
      const now = held.peek();
      if (now?.isKept) return;
      if (now?.handle !== handle) {
        held.value = { handle, before: tools.order.peek().shape, seen: null, problem: null, isKept: false };
      } else if (wanted === by) return;
      by = wanted;
      ask({ handle, by });
    },
    keep: async () => {
      const start = held.peek();
      if (!start || start.isKept) return;
      if (by === 0) {
        held.value = null;
        return;
      }
      held.value = { ...start, isKept: true };
      // The hand may be faster than the studio: what is kept is where it was let go, or the last place that could be drawn.
      if (start.seen?.by !== by) await look({ handle: start.handle, by });
      const now = held.peek();
      if (now?.seen && now.seen.preview.changes.length > 0) await tools.edit(now.seen.preview.changes, now.seen.preview.words);
      held.value = null;
    },
    back: () => {
      held.value = null;
    },
  };
}

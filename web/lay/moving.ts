/**
 * A piece on its way under a hand or the arrow keys. The studio says at every step whether it may lie there; what may not is
 * shown where it is, with the reason, and is neither kept nor put somewhere else.
 */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import type { LaidPiece, PlaceAnswer, PlaceRequest } from "../api/types.js";
import { Failed, latest, post } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import type { OrderTools } from "../order/context.js";
import { suitAt } from "../order/studio.js";

/** How far a piece is from where the lay has it. */
export interface Held {
  readonly piece: string;
  readonly copy: number;
  readonly name: string;
  /** mm as drawn. */
  readonly right: number;
  readonly down: number;
  readonly turns: number;
  /** As the studio drew it last, and how far it was moved then. */
  readonly drawn: { readonly piece: LaidPiece; readonly right: number; readonly down: number } | null;
  readonly faults: readonly string[];
  /** How long the lay would be, in words; empty before the first answer. */
  readonly length: string;
  readonly isKept: boolean;
}

/** Moves pieces of one cloth. */
export interface Mover {
  readonly held: ReadonlySignal<Held | null>;
  readonly problem: ReadonlySignal<Problem | null>;
  /** Moves `piece` by so much in all since it was taken up, or turns it on. */
  to(piece: LaidPiece, right: number, down: number, turns?: number): void;
  keep(): Promise<void>;
  /** Puts it back where it was. */
  back(): void;
  /** Lets all pieces go that a hand placed. */
  letGo(): Promise<void>;
}

/** The mover of a layer. */
export function openMover(tools: OrderTools, layer: string): Mover {
  const held = signal<Held | null>(null);
  const problem = signal<Problem | null>(null);
  const path = (): string => suitAt(tools.order.peek().suit.id, `/lay/${layer}/place`);
  const base = (): number => tools.order.peek().documents.find((stamp) => stamp.kind === "suit")?.revision ?? 0;
  const ask = (of: Held, keep: boolean): Promise<PlaceAnswer> => {
    const { piece, copy, right, down, turns } = of;
    const request: PlaceRequest = { base: base(), piece, copy, right, down, turns, keep, let_go: false };
    return post<PlaceAnswer>(path(), request);
  };
  const isSame = (a: Held, b: Held | null): boolean => b !== null && a.piece === b.piece && a.copy === b.copy && a.turns === b.turns;
  const told = (asked: Held, answer: PlaceAnswer): void => {
    const now = held.peek();
    // An answer about another piece, or another turn, comes too late.
    if (!now || !isSame(asked, now)) return;
    held.value = {
      ...now,
      drawn: answer.piece ? { piece: answer.piece, right: asked.right, down: asked.down } : now.drawn,
      faults: answer.faults,
      length: `${answer.length.main} ${answer.length.unit}`,
    };
  };
  const failed = (error: unknown): void => {
    problem.value = error instanceof Failed ? error.first : { what: "The piece could not be moved." };
  };
  const look = latest(async (asked: Held) => {
    try {
      told(asked, await ask(asked, false));
    } catch (error) {
      failed(error);
    }
  });
  const back = (): void => {
    held.value = null;
    problem.value = null;
  };
  return {
    held,
    problem,
    to: (piece, right, down, turns) => {
      const now = held.peek();
      if (now?.isKept) return;
      const isIt = now !== null && now.piece === piece.piece && now.copy === piece.copy;
      const next: Held = {
        piece: piece.piece,
        copy: piece.copy,
        name: piece.name,
        right,
        down,
        turns: turns ?? (isIt ? now.turns : 0),
        drawn: isIt ? now.drawn : null,
        faults: isIt ? now.faults : [],
        length: isIt ? now.length : "",
        isKept: false,
      };
      problem.value = null;
      held.value = next;
      look(next);
    },
    keep: async () => {
      const now = held.peek();
      if (!now || now.isKept) return;
      const asked: Held = { ...now, isKept: true };
      held.value = asked;
      // Put back meanwhile, it stays back: an answer that comes late does not take it up again.
      const isStill = (): boolean => held.peek()?.isKept === true && isSame(asked, held.peek());
      try {
        const answer = await ask(now, true);
        if (answer.kept) {
          await tools.reload();
          if (isStill()) back();
        } else if (isStill()) {
          held.value = { ...now, isKept: false };
          told(now, answer);
        }
      } catch (error) {
        if (isStill()) held.value = { ...now, isKept: false };
        failed(error);
      }
    },
    back,
    letGo: async () => {
      try {
        const request: PlaceRequest = { base: base(), piece: "", copy: 0, right: 0, down: 0, turns: 0, keep: true, let_go: true };
        await post<PlaceAnswer>(path(), request);
        await tools.reload();
      } catch (error) {
        failed(error);
      }
    },
  };
}

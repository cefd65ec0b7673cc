/** Where each rung of the ladder stands: at its ring's height on the form, moved apart only where two would touch. */
import type { FormView, RungView } from "../api/types.js";
import { boxOf, heightInDrawing, viewAt } from "../wearer/turning.js";

/** How far the form is shown below the lowest rung and above the highest, mm. */
const BELOW = 90;
const ABOVE = 110;
/** Least distance between two rungs, as a share of the ladder's height; on a low, wide drawing by its width over its height. */
const APART = 0.068;
const APART_WIDE = 0.12;
/** The widest a drawing may be for its height; wider, and it stands too low beside the rails for its rungs. */
const WIDEST = 0.6;
/** Rungs without a form keep this far from the ends. */
const EDGE = 0.06;

/** The part of the body shown, its box in the drawing, and the rungs' heights as shares of it, top 0. */
export interface Heights {
  readonly from: number;
  readonly to: number;
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly rungs: readonly Rung[];
}

/** One rung. */
export interface Rung {
  readonly rung: RungView;
  /** Where it is drawn. */
  readonly at: number;
  /** Where its ring is, with how far right the ring reaches as a share of the box; null without a ring. */
  readonly ring: { readonly at: number; readonly right: number } | null;
}

/** With a form; `null` when none of its rings has a rung. */
export function heightsOf(form: FormView, rungs: readonly RungView[], turn: number): Heights | null {
  const rings = new Map(form.rings.flatMap((ring) => (ring.level === null ? [] : [[ring.level, ring] as const])));
  const found = rungs.flatMap((rung) => rings.get(rung.level)?.y ?? []);
  if (found.length === 0) return null;
  const { from, to } = tallEnough(form, Math.max(form.low, Math.min(...found) - BELOW), Math.min(form.high, Math.max(...found) + ABOVE));
  const box = boxOf(form, from, to);
  const see = viewAt(turn);
  const placed = rungs.map((rung) => {
    const ring = rings.get(rung.level);
    if (!ring) return { rung, ring: null };
    let right = Number.NEGATIVE_INFINITY;
    for (const other of form.rings) {
      // A thigh's level has a ring for each leg: the one on the right is the one the line leads to.
      if (other.level !== ring.level) continue;
      for (let i = 0; i + 1 < other.points.length; i += 2) {
        right = Math.max(right, see(other.points[i] ?? 0, other.y, other.points[i + 1] ?? 0).x);
      }
    }
    return {
      rung,
      ring: { at: (heightInDrawing(ring.y) - box.y) / box.height, right: (right - box.x) / box.width },
    };
  });
  const at = apart(placed.map((one) => one.ring?.at ?? null), box.width / box.height);
  return { from, to, box, rungs: placed.map((one, i) => ({ ...one, at: at[i] ?? 0 })) };
}

/** Without a form: evenly, top to bottom. */
export function evenly(rungs: readonly RungView[]): readonly Rung[] {
  const step = (1 - 2 * EDGE) / Math.max(1, rungs.length - 1);
  return rungs.map((rung, i) => ({ rung, ring: null, at: EDGE + i * step }));
}

/** More of the body above and below a part of it, until its drawing is no wider than [WIDEST]; the whole of it at most. */
export function tallEnough(form: Pick<FormView, "low" | "high" | "reach">, from: number, to: number): { readonly from: number; readonly to: number } {
  const box = boxOf(form, from, to);
  const missing = (box.width / WIDEST - box.height) / (heightInDrawing(0) - heightInDrawing(1));
  if (missing <= 0) return { from, to };
  // What one end of the body has no more of, the other gives.
  const low = from - missing / 2 - Math.max(0, to + missing / 2 - form.high);
  const high = to + missing / 2 + Math.max(0, form.low - (from - missing / 2));
  return { from: Math.max(form.low, low), to: Math.min(form.high, high) };
}

/**
 * Heights moved apart: one without a place goes between its neighbours; then all are moved down, and if need be up again. `ratio` is the
 * drawing's width over its height.
 */
export function apart(heights: readonly (number | null)[], ratio = 0): readonly number[] {
  const least = Math.min(Math.max(APART, APART_WIDE * ratio), (1 - EDGE) / Math.max(1, heights.length));
  const at: number[] = [];
  heights.forEach((one, i) => {
    const last = at[i - 1];
    const wanted = one ?? (last === undefined ? EDGE : last + least);
    at.push(last === undefined ? Math.max(wanted, EDGE / 2) : Math.max(wanted, last + least));
  });
  let below = 1 - EDGE / 2 + least;
  for (let i = at.length - 1; i >= 0; i -= 1) {
    const now = Math.min(at[i] ?? below, below - least);
    at[i] = now;
    below = now;
  }
  return at;
}

/**
 * How a form in space becomes a drawing: turned about its upright axis, seen from the front and a little from above.
 *
 * Orthographic, so that heights keep their scale wherever they stand and a ladder can share it. Points arrive in mm, x her
 * left, y up, z forward; drawing units are the same mm, y down. Only how a thing is seen is computed here, never how long
 * it is.
 */
import type { FormView, RingView, TapeView } from "../api/types.js";

/** How far the view looks down on the form, degrees. */
const TILT = 9;
const DEGREE = Math.PI / 180;
const SINK = Math.sin(TILT * DEGREE);
const UPRIGHT = Math.cos(TILT * DEGREE);

/** Widths of a ring's line by the squeeze, px: none, and the most. */
export const LIGHT = 0.55;
export const HEAVY = 2.5;

/** A point of the drawing, with how near it is: larger is nearer. */
export interface Seen {
  readonly x: number;
  readonly y: number;
  readonly near: number;
}

/** A view at `turn` degrees: 0 from the front, 90 her left side, 180 from behind. */
export function viewAt(turn: number): (x: number, y: number, z: number) => Seen {
  const sin = Math.sin(turn * DEGREE);
  const cos = Math.cos(turn * DEGREE);
  return (x, y, z) => {
    const near = z * cos + x * sin;
    return { x: x * cos - z * sin, y: near * SINK - y * UPRIGHT, near };
  };
}

/** Where a height stands in the drawing: for rungs beside the rings. */
export function heightInDrawing(y: number): number {
  return -y * UPRIGHT;
}

/** The box the rings are drawn in, the same at every turn; `from` and `to` cut it to a part of the body. */
export function boxOf(
  form: Pick<FormView, "low" | "high" | "reach">,
  from = form.low,
  to = form.high,
): { x: number; y: number; width: number; height: number } {
  const over = form.reach * SINK + 8;
  const top = heightInDrawing(to) - over;
  return { x: -form.reach - 8, y: top, width: 2 * (form.reach + 8), height: heightInDrawing(from) + over - top };
}

/** One ring as two paths: the half that faces the eye and the half behind. */
export interface RingPaths {
  readonly front: string;
  readonly back: string;
}

/** Splits a ring where its wall turns away from the eye. */
export function ringPaths(ring: RingView, see: (x: number, y: number, z: number) => Seen): RingPaths {
  const seen: Seen[] = [];
  for (let i = 0; i + 1 < ring.points.length; i += 2) seen.push(see(ring.points[i] ?? 0, ring.y, ring.points[i + 1] ?? 0));
  // In the drawing x runs right and `near` towards the eye; a closed line's sign of area says which side of a step is outside.
  let area = 0;
  each(seen, (a, b) => {
    area += a.x * b.near - b.x * a.near;
  });
  let front = "";
  let back = "";
  let last: boolean | null = null;
  each(seen, (a, b) => {
    const faces = area > 0 ? b.x < a.x : b.x > a.x;
    const step = `${last === faces ? "" : `M${at(a)}`}L${at(b)}`;
    if (faces) front += step;
    else back += step;
    last = faces;
  });
  return { front, back };
}

function each(points: readonly Seen[], take: (a: Seen, b: Seen) => void): void {
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    if (b) take(a, b);
  });
}

const at = (p: Seen): string => `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;

/** A tape on the form: the parts one sees and those behind the body, and the ticks on the parts one sees. */
export interface TapePaths {
  readonly front: string;
  readonly back: string;
  readonly ticks: string;
}

/** Distance between two ticks and half their length, mm of the drawing. */
const TICK_EVERY = 10;
const TICK = 5;

/** A step of the tape is behind when it lies on the far side of the middle of the ring nearest to its height. */
export function tapePaths(tape: TapeView, form: FormView, see: (x: number, y: number, z: number) => Seen): TapePaths {
  const points: { readonly seen: Seen; readonly out: number }[] = [];
  for (let i = 0; i + 2 < tape.points.length; i += 3) {
    const [x, y, z] = [tape.points[i] ?? 0, tape.points[i + 1] ?? 0, tape.points[i + 2] ?? 0];
    const seen = see(x, y, z);
    const middle = middleAt(form, y);
    points.push({ seen, out: seen.near - see(middle.x, y, middle.z).near });
  }
  const ends = tape.closed ? points.length : points.length - 1;
  let front = "";
  let back = "";
  let ticks = "";
  let last: boolean | null = null;
  let run = 0;
  for (let i = 0; i < ends; i += 1) {
    const a = points[i];
    const b = points[(i + 1) % points.length];
    if (!a || !b) continue;
    const faces = a.out + b.out >= 0;
    const step = `${last === faces ? "" : `M${at(a.seen)}`}L${at(b.seen)}`;
    if (faces) front += step;
    else back += step;
    last = faces;
    const [dx, dy] = [b.seen.x - a.seen.x, b.seen.y - a.seen.y];
    const long = Math.hypot(dx, dy);
    if (faces && long > 0) {
      for (let d = TICK_EVERY - (run % TICK_EVERY); d <= long; d += TICK_EVERY) {
        const [x, y] = [a.seen.x + (dx * d) / long, a.seen.y + (dy * d) / long];
        // Upward side of the tape, so that the figures of a real one would stand on their feet.
        const side = dx < 0 || (dx === 0 && dy > 0) ? -1 : 1;
        ticks += `M${x.toFixed(1)} ${y.toFixed(1)}l${((side * dy * TICK) / long).toFixed(1)} ${((-side * dx * TICK) / long).toFixed(1)}`;
      }
    }
    run += long;
  }
  return { front, back, ticks };
}

/** Lowest and highest point of a tape, mm, for cutting the view to it. */
export function tapeSpan(tape: TapeView): { readonly low: number; readonly high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < tape.points.length; i += 3) {
    low = Math.min(low, tape.points[i] ?? low);
    high = Math.max(high, tape.points[i] ?? high);
  }
  return { low, high };
}

function middleAt(form: FormView, y: number): { readonly x: number; readonly z: number } {
  let best: RingView | undefined;
  for (const ring of form.rings) {
    if (!isTrunk(ring)) continue;
    if (!best || Math.abs(ring.y - y) < Math.abs(best.y - y)) best = ring;
  }
  if (!best) return { x: 0, z: 0 };
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 1; i < best.points.length; i += 2) {
    low = Math.min(low, best.points[i] ?? low);
    high = Math.max(high, best.points[i] ?? high);
  }
  return { x: 0, z: (low + high) / 2 };
}

/** A ring of the trunk goes round the middle; one of a leg or an arm lies to one side. */
export function isTrunk(ring: RingView): boolean {
  let [left, right] = [false, false];
  for (let i = 0; i < ring.points.length; i += 2) {
    const x = ring.points[i] ?? 0;
    left ||= x > 1;
    right ||= x < -1;
  }
  return left && right;
}

/** The centre front line over the rings of the trunk, from the neck down; empty when it is turned away. */
export function centreFront(form: FormView, see: (x: number, y: number, z: number) => Seen): string {
  const line: Seen[] = [];
  let above = 0;
  for (const ring of form.rings) {
    if (!isTrunk(ring)) continue;
    let front = Number.NEGATIVE_INFINITY;
    const count = ring.points.length;
    for (let i = 0; i + 1 < count; i += 2) {
      const [xa, za] = [ring.points[i] ?? 0, ring.points[i + 1] ?? 0];
      const [xb, zb] = [ring.points[(i + 2) % count] ?? 0, ring.points[(i + 3) % count] ?? 0];
      if (xa === xb || xa * xb > 0) continue;
      front = Math.max(front, za + ((zb - za) * xa) / (xa - xb));
    }
    if (!Number.isFinite(front)) continue;
    const seen = see(0, ring.y, front);
    const middle = middleAt(form, ring.y);
    if (seen.near > see(middle.x, ring.y, middle.z).near) above += 1;
    line.push(seen);
  }
  if (above * 2 < line.length) return "";
  return line.map((p, i) => `${i === 0 ? "M" : "L"}${at(p)}`).join("");
}

/** Weight of a ring between the weighted levels around it, for the eye; `null` outside them. */
export function weightAt(y: number, weighted: readonly { readonly y: number; readonly weight: number }[]): number | null {
  for (let i = 0; i + 1 < weighted.length; i += 1) {
    const a = weighted[i];
    const b = weighted[i + 1];
    if (!a || !b || y < a.y || y > b.y) continue;
    return b.y === a.y ? a.weight : a.weight + ((b.weight - a.weight) * (y - a.y)) / (b.y - a.y);
  }
  return null;
}

/**
 * A worn suit as lines: read from the studio's bytes (docs/api.md tells them) and turned for the eye.
 *
 * Rings of form and cloth have their outside to the right of travel; an edge's points say which way the cloth faces. So what turns away
 * from the eye is known without a surface.
 */
import { HEAVY, LIGHT, viewAt } from "../wearer/turning.js";

/** One line: three numbers a point, mm, and a value a point. */
export interface Line {
  readonly closes: boolean;
  readonly xyz: Float32Array;
  readonly values: Uint8Array;
}

/** All of them, by what they are of. */
export interface Lines {
  readonly form: readonly Line[];
  readonly cloth: readonly Line[];
  readonly edges: readonly Line[];
  /** Lowest and highest point of the cloth, mm. */
  readonly low: number;
  readonly high: number;
}

const HEAD = 8;
const GRAIN = 0.1;

/** Throws for bytes of another form: a page older than its studio. */
export function readLines(bytes: ArrayBuffer): Lines {
  const view = new DataView(bytes);
  const mark = String.fromCharCode(...new Uint8Array(bytes, 0, 4));
  if (mark !== "SWR1") throw new Error("these are no lines of a worn suit");
  const count = view.getUint16(4, true);
  const sizes = Array.from({ length: count }, (_, i) => view.getUint16(HEAD + 4 * i + 2, true));
  const points = sizes.reduce((sum, size) => sum + size, 0);
  let at = HEAD + 4 * count;
  let value = at + 6 * points;
  const of: [Line[], Line[], Line[]] = [[], [], []];
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  sizes.forEach((size, i) => {
    const kind = view.getUint8(HEAD + 4 * i);
    const xyz = new Float32Array(3 * size);
    for (let j = 0; j < xyz.length; j += 1) xyz[j] = view.getInt16(at + 2 * j, true) * GRAIN;
    of[kind]?.push({ closes: view.getUint8(HEAD + 4 * i + 1) === 1, xyz, values: new Uint8Array(bytes, value, size) });
    if (kind === 1 && size > 0) {
      low = Math.min(low, xyz[1] ?? low);
      high = Math.max(high, xyz[1] ?? high);
    }
    at += 6 * size;
    value += size;
  });
  return { form: of[0], cloth: of[1], edges: of[2], low, high };
}

/** Classes of weight a ring is drawn in. */
const CLASSES = 8;

/** Line width of each class, px. */
export const widths: readonly number[] = Array.from({ length: CLASSES }, (_, i) => LIGHT + ((HEAVY - LIGHT) * i) / (CLASSES - 1));

/** Paths of everything at one turn. */
export interface Turned {
  readonly formFacing: string;
  readonly formBehind: string;
  /** One a class of weight. */
  readonly cloth: readonly string[];
  readonly edgeFacing: string;
  readonly edgeBehind: string;
}

/** Draws the lines at `turn` degrees. */
export function turned(lines: Lines, turn: number): Turned {
  const see = viewAt(turn);
  const sin = Math.sin((turn * Math.PI) / 180);
  const cos = Math.cos((turn * Math.PI) / 180);
  const spot = (xyz: Float32Array, i: number): string => {
    const p = see(xyz[3 * i] ?? 0, xyz[3 * i + 1] ?? 0, xyz[3 * i + 2] ?? 0);
    return `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  };
  /** Whether the wall of a step faces the eye. */
  const faces = (xyz: Float32Array, i: number, j: number): boolean => {
    const dx = (xyz[3 * j] ?? 0) - (xyz[3 * i] ?? 0);
    const dz = (xyz[3 * j + 2] ?? 0) - (xyz[3 * i + 2] ?? 0);
    return dz * sin - dx * cos > 0;
  };
  /** Each step goes to the path its number says; a step below 0 is left out. */
  const draw = (line: Line, paths: string[], pick: (i: number, j: number) => number): void => {
    const size = line.values.length;
    const steps = line.closes ? size : size - 1;
    let last = -1;
    for (let i = 0; i < steps; i += 1) {
      const j = (i + 1) % size;
      const to = pick(i, j);
      if (to >= 0) paths[to] = `${paths[to] ?? ""}${to === last ? "" : `M${spot(line.xyz, i)}`}L${spot(line.xyz, j)}`;
      last = to;
    }
  };
  const form = ["", ""];
  for (const line of lines.form) {
    draw(line, form, (i, j) => (line.values[i] === 1 && line.values[j] === 1 ? -1 : faces(line.xyz, i, j) ? 0 : 1));
  }
  const cloth = widths.map(() => "");
  for (const line of lines.cloth) {
    draw(line, cloth, (i, j) => {
      if (!faces(line.xyz, i, j)) return -1;
      return Math.round((((line.values[i] ?? 0) + (line.values[j] ?? 0)) / 510) * (CLASSES - 1));
    });
  }
  const edges = ["", ""];
  for (const line of lines.edges) {
    const isNear = (i: number): boolean => {
      const way = ((line.values[i] ?? 0) / 256) * 2 * Math.PI;
      return Math.sin(way) * sin + Math.cos(way) * cos > 0;
    };
    // An edge that turns away is still the cloth's outline: one end in sight is enough.
    draw(line, edges, (i, j) => (isNear(i) || isNear(j) ? 0 : 1));
  }
  return {
    formFacing: form[0] ?? "",
    formBehind: form[1] ?? "",
    cloth,
    edgeFacing: edges[0] ?? "",
    edgeBehind: edges[1] ?? "",
  };
}

/** How far right a turned body reaches at a height, in the drawing's mm: where a rung's line begins. */
export function rightAt(lines: Lines, height: number, turn: number): number | null {
  const see = viewAt(turn);
  let best: number | null = null;
  let near = Number.POSITIVE_INFINITY;
  for (const line of lines.form) {
    const y = line.xyz[1] ?? 0;
    const off = Math.abs(y - height);
    if (off > near) continue;
    let right = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < line.values.length; i += 1) right = Math.max(right, see(line.xyz[3 * i] ?? 0, y, line.xyz[3 * i + 2] ?? 0).x);
    best = off === near && best !== null ? Math.max(best, right) : right;
    near = off;
  }
  return best;
}

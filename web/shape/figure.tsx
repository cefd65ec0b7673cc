/**
 * What a correction does, as a small drawing: the body from her left side, the line as it is and where it goes. For the eye only;
 * the same is said in words beside it.
 */

/** Front and back of a body in profile, looking to the right: nape and pit of the neck at the top, thigh at the foot. */
const BACK = "M30 6C23 12 20 19 21 27 22 34 27 38 28 45 28 52 18 58 18 68 18 77 25 81 26 94";
const FRONT = "M43 8C46 15 57 21 57 29 57 35 50 38 49 45 49 53 54 59 53 67 52 75 50 83 50 94";

interface Drawing {
  /** Where the line goes, by way: -1, 1. */
  readonly goes: string;
  /** An arrow along which it goes. */
  readonly arrow: string;
  /** A level or seam that moves, drawn in dots where it is now. */
  readonly from?: string;
}

const up = (x: number, from: number, to: number): string => {
  const head = to < from ? 4 : -4;
  return `M${x} ${from}V${to}M${x - 3.4} ${to + head}L${x} ${to}L${x + 3.4} ${to + head}`;
};
const over = (y: number, from: number, to: number): string => {
  const head = to < from ? 4 : -4;
  return `M${from} ${y}H${to}M${to + head} ${y - 3.4}L${to} ${y}L${to + head} ${y + 3.4}`;
};

const DRAWINGS: Readonly<Record<string, readonly [Drawing, Drawing]>> = {
  sway_back: [
    { goes: "M21 27C24 33 32 37 33 45 33 52 20 58 18 66", arrow: over(45, 15, 25) },
    { goes: "M21 27C24 33 32 37 33 45 33 52 20 58 18 66", arrow: over(45, 15, 25) },
  ],
  seat: [
    { goes: "M28 45C28 53 23 58 23 67 23 76 26 81 26 90", arrow: over(68, 7, 16) },
    { goes: "M28 45C27 53 11 56 11 68 11 79 24 82 26 92", arrow: over(68, 26, 13) },
  ],
  abdomen: [
    { goes: "M49 42C53 49 62 52 61 60 60 69 53 74 51 84", arrow: over(58, 42, 59) },
    { goes: "M49 42C53 49 62 52 61 60 60 69 53 74 51 84", arrow: over(58, 42, 59) },
  ],
  belly: [
    { goes: "M53 37C62 41 73 47 72 56 71 67 57 74 51 86", arrow: over(55, 44, 70) },
    { goes: "M53 37C62 41 73 47 72 56 71 67 57 74 51 86", arrow: over(55, 44, 70) },
  ],
  shoulder_forward: [
    { from: "M36 2V17", goes: "M44 4V19", arrow: over(13, 30, 43) },
    { from: "M36 2V17", goes: "M44 4V19", arrow: over(13, 30, 43) },
  ],
  bust_height: [
    { from: "M49 29H66", goes: "M49 37H66", arrow: up(62, 22, 36) },
    { from: "M49 29H66", goes: "M49 21H66", arrow: up(62, 37, 22) },
  ],
  rise_length: [
    { from: "M20 45H60", goes: "M20 53H60", arrow: up(39, 38, 52) },
    { from: "M20 45H60", goes: "M20 37H60", arrow: up(39, 53, 38) },
  ],
  growth: [
    { goes: "M18 4H60M18 96H60", arrow: `${up(39, 34, 6)}${up(39, 62, 94)}` },
    { goes: "M18 4H60M18 96H60", arrow: `${up(39, 34, 6)}${up(39, 62, 94)}` },
  ],
};

/** The drawing of one correction; `way` is -1 for the lower, flatter one. Faint while nothing is corrected. */
export function FigureDrawing({ of, way }: { readonly of: string; readonly way: number }) {
  const drawing = DRAWINGS[of]?.[way < 0 ? 0 : 1];
  if (!drawing) return null;
  return (
    <svg class={way === 0 ? "figuredrawing" : "figuredrawing set"} viewBox="0 0 80 100" aria-hidden="true">
      <path class="body" d={`${BACK}L50 94`} />
      <path class="body" d={FRONT} />
      {drawing.from !== undefined && <path class="from" d={drawing.from} />}
      <path class="goes" d={drawing.goes} />
      <path class="arrow" d={drawing.arrow} />
    </svg>
  );
}

/** Where a closure lies: the suit from behind or in front, and its slit; a neck piece for one behind the neck. */
export function ClosureDrawing({ kind, place }: { readonly kind: string; readonly place: string }) {
  const isNeck = kind === "hook" || kind === "ring";
  const isFront = place === "front";
  const neck = isFront ? "C33 26 47 26 52 8" : "C34 38 46 38 52 8";
  return (
    <svg class="figuredrawing set" viewBox="0 0 80 100" aria-hidden="true">
      {isNeck ? (
        <>
          <path class="body" d="M16 92C18 70 22 58 30 44 34 36 34 24 26 16 34 6 46 6 54 16 46 24 46 36 50 44 58 58 62 70 64 92" />
          {kind === "ring" ? (
            <>
              <circle class="goes" cx="34" cy="11" r="6" />
              <path class="goes" d="M40 11H50C54 11 54 17 50 17" />
            </>
          ) : (
            <path class="goes" d="M30 11H42M42 6V16M46 11H50C54 11 54 17 50 17" />
          )}
        </>
      ) : (
        <>
          <path class="body" d={`M20 8H28${neck}H60C58 24 62 34 66 40 60 52 64 64 68 74 58 78 50 84 46 96H34C30 84 22 78 12 74 16 64 20 52 14 40 18 34 22 24 20 8Z`} />
          {kind === "zip" && <path class="goes zip" d={isFront ? "M40 22V66" : "M40 30V72"} />}
          {kind === "clasp" && <path class="goes" d="M40 32 36 52 40 62 44 52 40 32M33 31H47" />}
        </>
      )}
    </svg>
  );
}

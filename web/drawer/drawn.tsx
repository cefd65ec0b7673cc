/** Drawings of the drawer: a suit lying flat or half a pattern, the tape on it, and what was found drawn over it. */
import { useId } from "preact/hooks";
import type { DrawerTape, DrawnSide } from "../api/types.js";

/** Room round a drawing, mm: its lines and words are wider than its outline. */
const ROOM = 16;

/** One side. `label` says it for ears; with `tapes` the tape lies on it. */
export function Drawn({ side, label, tapes = [] }: {
  readonly side: DrawnSide;
  readonly label: string;
  readonly tapes?: readonly DrawerTape[];
}) {
  const { x, y, width, height } = side.frame;
  const id = useId();
  return (
    <svg
      class="ontable"
      viewBox={`${x - ROOM} ${y - ROOM} ${width + 2 * ROOM} ${height + 2 * ROOM}`}
      role="img"
      aria-labelledby={id}
      style={{ maxWidth: `${Math.round((width + 2 * ROOM) * 1.25)}px` }}
    >
      <title id={id}>{label}</title>
      {side.behind !== null && <path class="behind" d={side.behind} />}
      {tapes.map((tape) => (
        <path key={tape.measure} class="tapebehind" d={tape.behind} />
      ))}
      <path class="piece cut" d={side.paper} />
      {side.lines.map((line, i) => (
        <path key={`${line.kind} ${i}`} class={`d-${line.kind}`} d={line.path} />
      ))}
      {side.words.map((word) => (
        <text key={`${word.says} ${word.at.y}`} class={`w-${word.kind}`} x={word.at.x} y={word.at.y} text-anchor={word.anchor}>
          {word.says}
        </text>
      ))}
      {tapes.map((tape) => (
        <g key={tape.measure} class="tapeline">
          {tape.level !== "" && <path class="d-level" d={tape.level} />}
          <path class="edge" d={tape.path} />
          <path class="band" d={tape.path} />
          <path class="ticks" d={tape.path} />
        </g>
      ))}
    </svg>
  );
}

/** A suit hung by pegs: the silhouette of its own drafted pieces in its own cloths. */
import { useId } from "preact/hooks";
import type { Silhouette } from "../api/types.js";
import { Weave } from "../cloth/weaves.js";

/** The weave's size on a suit drawn in mm. */
const WEAVE = 1.5;
/** Room above the suit for the pegs, and at its sides; mm of the drawing. */
const ABOVE = 26;
const BESIDE = 24;

/** One suit on its pegs; an empty peg where nothing can be drafted. `width` and `height`: the largest of those shown together, mm. */
export function HungSuit({ silhouette, width, height }: {
  readonly silhouette: Silhouette | null;
  readonly width: number;
  readonly height: number;
}) {
  const id = useId();
  const wide = width + 2 * BESIDE;
  if (!silhouette) {
    // An empty peg: nothing can be drafted yet. The words below say what is missing.
    return (
      <svg class="hungsuit" viewBox={`${-wide / 2} ${-ABOVE} ${wide} ${height + ABOVE}`} preserveAspectRatio="xMidYMin meet" aria-hidden="true">
        <Peg x={0} />
        <path class="nothing" d={`M-90 20H90L70 ${height * 0.42}H-70Z`} />
      </svg>
    );
  }
  const { frame, parts, pegs } = silhouette;
  const left = frame.x + frame.width / 2 - wide / 2;
  return (
    <svg class="hungsuit" viewBox={`${left} ${frame.y - ABOVE} ${wide} ${height + ABOVE}`} preserveAspectRatio="xMidYMin meet" aria-hidden="true">
      <defs>
        {parts.map((part, i) => (
          <Weave key={i} id={`${id}-${i}`} look={part.look} size={WEAVE} />
        ))}
      </defs>
      <g class="cut">
        {parts.map((part, i) => (
          <g key={i} class={part.is_inside ? "inside" : "outside"}>
            <path d={part.path} fill={part.look.colour} />
            <path d={part.path} fill={`url(#${id}-${i})`} class="edge" />
          </g>
        ))}
      </g>
      <g transform={`translate(0 ${frame.y})`}>
        {pegs.map((x) => (
          <Peg key={x} x={x} />
        ))}
      </g>
    </svg>
  );
}

/** A wooden peg over the line, which runs at y = 0. */
function Peg({ x }: { readonly x: number }) {
  return (
    <g class="peg" transform={`translate(${x} 0)`}>
      <rect x={-10} y={-22} width={20} height={46} />
      <path d="M0-22V24" />
    </g>
  );
}

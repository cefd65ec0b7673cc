/** Suits hung from a line by pegs: the silhouette of each suit's own drafted pieces, all to one scale, a child's smaller. */
import { useId } from "preact/hooks";
import type { Silhouette, SuitCard } from "../api/types.js";
import { Weave } from "../cloth/weaves.js";
import { StateIcon } from "../parts/icon.js";
import { headed } from "../register/adapt.js";

/** The weave's size on a suit drawn in mm. */
const WEAVE = 1.5;
/** Room above the suit for the pegs, and at its sides; mm of the drawing. */
const ABOVE = 26;
const BESIDE = 24;

/** The suits, in the order given; each leads to its work order. */
export function Hang({ suits }: { readonly suits: readonly SuitCard[] }) {
  const widest = Math.max(320, ...suits.map((suit) => suit.silhouette?.frame.width ?? 0));
  const longest = Math.max(500, ...suits.map((suit) => suit.silhouette?.frame.height ?? 0));
  return (
    <div class="hang">
      <ul>
        {suits.map((suit) => (
          <li key={suit.id}>
            <a href={`/suits/${encodeURIComponent(suit.id)}`}>
              <Suit silhouette={suit.silhouette} width={widest} height={longest} />
              <b>
                {suit.number} {suit.wearer === "" ? suit.name : suit.wearer}
              </b>
              <span class="about">{suit.about === "" ? suit.name : suit.about}</span>
              <StateIcon pencil state={suit.state} says={suit.says === "" ? headed(suit.state) : suit.says} />
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}

function Suit({ silhouette, width, height }: {
  readonly silhouette: Silhouette | null;
  readonly width: number;
  readonly height: number;
}) {
  const id = useId();
  const wide = width + 2 * BESIDE;
  if (!silhouette) {
    // An empty peg: nothing can be drafted yet. The words below say what is missing.
    return (
      <svg viewBox={`${-wide / 2} ${-ABOVE} ${wide} ${height + ABOVE}`} preserveAspectRatio="xMidYMin meet" aria-hidden="true">
        <Peg x={0} />
        <path class="nothing" d={`M-90 20H90L70 ${height * 0.42}H-70Z`} />
      </svg>
    );
  }
  const { frame, parts, pegs } = silhouette;
  const left = frame.x + frame.width / 2 - wide / 2;
  return (
    <svg viewBox={`${left} ${frame.y - ABOVE} ${wide} ${height + ABOVE}`} preserveAspectRatio="xMidYMin meet" aria-hidden="true">
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

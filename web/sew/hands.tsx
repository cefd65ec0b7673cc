/**
 * The pieces of a step as they lie in hand: edges that are sewn drawn heavy, edges only handled in dashes, the wrong side
 * shaded where it lies up.
 */
import { useRef } from "preact/hooks";
import type { HandView, PieceView, StepView } from "../api/types.js";
import { useMmPerPixel } from "../order/scale.js";
import { Piece, viewBox } from "../shape/piece.js";

/** Room round a piece for its heavy edges, mm. */
const ROOM_MM = 8;

/** Up to `most` pieces of a step, at one height, each with its name; nothing when it has none. */
export function Hands({ step, pieces, most }: {
  readonly step: StepView;
  readonly pieces: readonly PieceView[];
  readonly most: number;
}) {
  const drawn = step.hands.flatMap((hand) => {
    const piece = pieces.find((one) => one.key === hand.piece);
    return piece ? [{ hand, piece }] : [];
  });
  if (drawn.length === 0) return null;
  const shown = drawn.slice(0, most);
  const rest = drawn.slice(most).map(({ hand }) => hand.name);
  return (
    <figure class="hands">
      <div class="row" role="img" aria-label={step.drawing}>
        {shown.map(({ hand, piece }) => (
          <InHand key={piece.key} hand={hand} piece={piece} />
        ))}
      </div>
      {rest.length > 0 && <figcaption class="small">And {rest.join(", ").toLowerCase()}.</figcaption>}
    </figure>
  );
}

function InHand({ hand, piece }: { readonly hand: HandView; readonly piece: PieceView }) {
  const drawing = useRef<SVGSVGElement>(null);
  const px = useMmPerPixel(drawing, piece.frame.width + 2 * ROOM_MM, piece.frame.height + 2 * ROOM_MM);
  const of = (names: readonly string[]) => piece.edges.filter((edge) => names.includes(edge.name));
  return (
    <span class={hand.is_wrong_side_up ? "handpiece wrongup" : "handpiece"} aria-hidden="true">
      <svg ref={drawing} viewBox={viewBox(piece.frame, ROOM_MM)}>
        <Piece piece={piece} px={px} plain />
        {of(hand.handled).map((edge, i) => (
          <path key={`handled ${edge.name} ${i}`} class="k-handled" d={edge.path} vector-effect="non-scaling-stroke" />
        ))}
        {of(hand.sewn).map((edge, i) => (
          <path key={`sewn ${edge.name} ${i}`} class="k-hot" d={edge.path} vector-effect="non-scaling-stroke" />
        ))}
      </svg>
      <span class="name">
        {hand.name}
        {hand.is_wrong_side_up && <small> wrong side up</small>}
      </span>
    </span>
  );
}

/** The nest: every piece with all its sizes over each other. A rhythm of strokes tells the sizes apart, not a colour. */
import { useId, useState } from "preact/hooks";
import type { NestPieceView, RangeSizeView, RangeView } from "../api/types.js";
import { Tick } from "../register/fields.js";

/** Room round a drawing, mm. */
const ROOM = 12;
/** Pixels to a millimetre of a stroke or gap, so that the rhythm is read at any size of the drawing. */
const STROKE_PX = 2;

/** The body of the section. */
export function Nest({ range }: { readonly range: RangeView }) {
  const [offSizes, setOffSizes] = useState<readonly number[]>([]);
  const [offPieces, setOffPieces] = useState<readonly string[]>([]);
  const shown = range.pieces.filter((piece) => !offPieces.includes(piece.key));
  return (
    <>
      <fieldset class="sizeticks">
        <legend class="small label">Sizes and their lines</legend>
        <ul class="nestlegend">
          {range.sizes.map((size, i) => (
            <li key={size.name}>
              <Tick
                done={!offSizes.includes(i)}
                says={
                  <>
                    <Sample size={size} />
                    <b>{size.name}</b>
                    {size.note !== "" && <small> {size.note}</small>}
                  </>
                }
                onTick={(done) => setOffSizes(done ? offSizes.filter((one) => one !== i) : [...offSizes, i])}
              />
            </li>
          ))}
        </ul>
      </fieldset>
      <fieldset class="sizeticks">
        <legend class="small label">Pieces</legend>
        <ul class="ticks">
          {range.pieces.map((piece) => (
            <li key={piece.key}>
              <Tick
                done={!offPieces.includes(piece.key)}
                says={piece.name}
                onTick={(done) => setOffPieces(done ? offPieces.filter((one) => one !== piece.key) : [...offPieces, piece.key])}
              />
            </li>
          ))}
        </ul>
      </fieldset>
      <div class="nestpieces">
        {shown.map((piece) => (
          <Piece key={piece.key} piece={piece} sizes={range.sizes} off={offSizes} />
        ))}
      </div>
    </>
  );
}

function strokes(size: RangeSizeView) {
  return {
    "stroke-width": Math.max(1.3, size.width * 3.6),
    ...(size.dash.length > 0 && { "stroke-dasharray": size.dash.map((mm) => mm * STROKE_PX).join(" ") }),
  };
}

/** A bit of its line. */
function Sample({ size }: { readonly size: RangeSizeView }) {
  return (
    <svg class="nestsample" viewBox="0 0 112 12" width="112" height="12" aria-hidden="true">
      <line x1="0" y1="6" x2="112" y2="6" {...strokes(size)} />
    </svg>
  );
}

function Piece({ piece, sizes, off }: {
  readonly piece: NestPieceView;
  readonly sizes: readonly RangeSizeView[];
  readonly off: readonly number[];
}) {
  const { x, y, width, height } = piece.frame;
  const id = useId();
  const layers = piece.layers.filter((layer) => !off.includes(layer.size));
  const names = layers.map((layer) => sizes[layer.size]?.name ?? "").join(", ");
  return (
    <figure>
      <svg
        class="nestpiece"
        viewBox={`${x - ROOM} ${y - ROOM} ${width + 2 * ROOM} ${height + 2 * ROOM}`}
        role="img"
        aria-labelledby={id}
      >
        <title id={id}>{names === "" ? `${piece.name}: no size shown` : `${piece.name}: cut lines of ${names}`}</title>
        {layers.map((layer) => {
          const size = sizes[layer.size];
          return size ? <path key={layer.size} d={layer.path} data-size={size.name} {...strokes(size)} /> : null;
        })}
      </svg>
      <figcaption>
        <b>{piece.name}</b>
        <span class="small">
          {piece.stacked}
          {piece.missing.length > 0 && `; not in ${piece.missing.join(", ")}`}
        </span>
      </figcaption>
    </figure>
  );
}

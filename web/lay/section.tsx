/**
 * Section 5, Lay: what is cut from which cloth and which way the pieces point.
 *
 * The pieces lie side by side to be looked at; where each goes on the cloth is not computed here, and the page says so.
 */
import { useId, useRef } from "preact/hooks";
import type { CutView, LaidCloth } from "../api/types.js";
import { Weave } from "../cloth/weaves.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { inWords, shown } from "../order/quantity.js";
import { useMmPerPixel } from "../order/scale.js";
import { Second } from "../parts/figure.js";
import { Figure } from "../parts/figure.js";
import { Table } from "../parts/table.js";
import { Acts, Word } from "../parts/touch.js";

/** Between pieces and round them, mm. */
const GAP = 36;
/** A row is at most this many of the longest piece, so that one long piece does not make the others small. */
const ROW = 2.3;
/** A piece shorter than this in px carries its letter alone. */
const NAME_FROM = 90;
/** Size of a name, px; width of a letter as a share of it; share of a piece's length that its name may take. */
const NAME_PX = 20;
const LETTER = 0.55;
const NAME_ROOM = 0.62;

/** The body of the section. */
export function LaySection({ tools }: { readonly tools: OrderTools }) {
  const { lay } = tools.order.value;
  return (
    <>
      {lay.lead !== "" && <p class="lead">{lay.lead}</p>}
      {lay.cloths.map((cloth) => (
        <Cloth key={`${cloth.layer} ${cloth.name}`} tools={tools} cloth={cloth} />
      ))}
      {lay.cloths.length > 0 && (
        <Acts>
          <Word href={`/suits/${encodeURIComponent(tools.order.value.suit.id)}/shopping`}>What to buy, and what it costs</Word>
        </Acts>
      )}
      {lay.cloths.length > 0 && (
        <p class="small">The pieces lie side by side here to be looked at; this is not a worked-out lay. Move them closer on the cloth.</p>
      )}
    </>
  );
}

function Cloth({ tools, cloth }: { readonly tools: OrderTools; readonly cloth: LaidCloth }) {
  return (
    <div class="laid">
      <h3>
        {cloth.layer.charAt(0).toUpperCase()}
        {cloth.layer.slice(1)}: {cloth.name}
      </h3>
      {cloth.lies !== "" && <p>{cloth.lies}</p>}
      {cloth.pieces.length > 0 && <Row cloth={cloth} />}
      <dl class="buyline">
        {cloth.at_least && (
          <div>
            <dt>No length shorter than</dt>
            <dd>
              <AskedFigure tools={tools} quantity={cloth.at_least} label={`why at least ${inWords(cloth.at_least)}?`} />{" "}
              <Second quantity={shown(cloth.at_least)} />
            </dd>
          </div>
        )}
        {cloth.width && (
          <div>
            <dt>Usable width</dt>
            <dd>
              <AskedFigure tools={tools} quantity={cloth.width} label="why this width?" /> <Second quantity={shown(cloth.width)} />
            </dd>
          </div>
        )}
        <div>
          <dt>On the shelf</dt>
          <dd>{cloth.stock ? <Figure quantity={shown(cloth.stock)} /> : "not written"}</dd>
        </div>
      </dl>
      <Table
        caption={`To cut from ${cloth.name}`}
        rowKey={(row) => row.letter}
        rows={cloth.pieces}
        columns={[
          { key: "piece", head: "Piece", cell: (row) => `${row.letter} ${row.piece}` },
          { key: "cut", head: "Cut", cell: (row) => row.count },
          { key: "along", head: "Along the selvedge", right: true, phone: "along", cell: (row) => <Figure quantity={shown(row.size[0])} /> },
          { key: "across", head: "Across", right: true, phone: "across", cell: (row) => <Figure quantity={shown(row.size[1])} /> },
        ]}
      />
    </div>
  );
}

interface Placed {
  readonly cut: CutView;
  readonly x: number;
  readonly y: number;
}

/** Rows of pieces, for the eye. */
function rowsOf(pieces: readonly CutView[]): { readonly placed: readonly Placed[]; readonly width: number; readonly height: number } {
  const longest = Math.max(...pieces.map((cut) => cut.frame.width), 1);
  const most = longest * ROW + GAP * 2;
  const placed: Placed[] = [];
  let [x, y, tall, width] = [GAP, GAP, 0, 0];
  for (const cut of pieces) {
    if (x > GAP && x + cut.frame.width + GAP > most) {
      [x, y, tall] = [GAP, y + tall + GAP, 0];
    }
    placed.push({ cut, x, y });
    x += cut.frame.width + GAP;
    tall = Math.max(tall, cut.frame.height);
    width = Math.max(width, x);
  }
  return { placed, width, height: y + tall + GAP };
}

function Row({ cloth }: { readonly cloth: LaidCloth }) {
  const drawing = useRef<SVGSVGElement>(null);
  const id = useId();
  const { placed, width, height } = rowsOf(cloth.pieces);
  const px = useMmPerPixel(drawing, width);
  return (
    <figure class="clothrow">
      <figcaption>
        <span>selvedge</span>
        <span class="alongword">along</span>
        <svg class="alongarrow" viewBox="0 0 80 10" aria-hidden="true">
          <path d="M1 5H79M72 1.5 79 5 72 8.5M8 1.5 1 5 8 8.5" />
        </svg>
      </figcaption>
      <svg
        ref={drawing}
        class="clothpatch"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`Pieces cut from ${cloth.name}, side by side: ${cloth.pieces.map((cut) => `${cut.piece}, ${cut.count}`).join("; ")}`}
      >
        <defs>
          <Weave id={`${id}-weave`} look={cloth.look} size={Math.max(px, 0.5) * 1.4} />
        </defs>
        <rect width={width} height={height} fill={`url(#${id}-weave)`} />
        <path class="selvedge" d={`M0 0H${width}M0 ${height}H${width}`} />
        {placed.map(({ cut, x, y }) => {
          const middle = { x: cut.frame.x + cut.frame.width / 2, y: cut.frame.y + cut.frame.height / 2 };
          const room = cut.frame.width / px;
          const isLong = room > NAME_FROM && cut.frame.height / px > 44 && cut.piece.length * NAME_PX * LETTER < room * NAME_ROOM;
          return (
            <g key={cut.letter} transform={`translate(${x - cut.frame.x} ${y - cut.frame.y})`}>
              <path class="piece" d={cut.outline} />
              <path class="k-cut" d={cut.outline} />
              <text class="piecename" x={middle.x} y={middle.y} font-size={(isLong ? NAME_PX : 16) * px}>
                {isLong ? cut.piece : cut.letter}
              </text>
              {isLong && cut.frame.height / px > 64 && (
                <text class="piececut" x={middle.x} y={middle.y + 20 * px} font-size={14 * px}>
                  {cut.count}
                </text>
              )}
            </g>
          );
        })}
      </svg>
    </figure>
  );
}

/** Section 3, Shape: the design in words, its pieces as cut paper with handles on them, and the same as numbers. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Field, Frame, PieceView, ShapeView } from "../api/types.js";
import { Asked, AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords, FieldLine } from "../order/field.js";
import { useMmPerPixel } from "../order/scale.js";
import { TriedHere } from "../order/tried.js";
import { shown } from "../order/quantity.js";
import { Line, Lines } from "../parts/line.js";
import { Table } from "../parts/table.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Word } from "../parts/touch.js";
import { BackOne } from "../parts/undo.js";
import { Besides } from "./besides.js";
import { Handle } from "./handle.js";
import { newMoving } from "./moving.js";
import type { Moving } from "./moving.js";
import { Piece, around, mainPieces, viewBox } from "./piece.js";
import { StyleLine } from "./styles.js";

/** Room around the pieces, mm: for rings on the edge and the shadow. */
const ROOM = 14;

/** The body of the section. */
export function ShapeSection({ tools }: { readonly tools: OrderTools }) {
  const order = tools.order.value;
  const moving = useMemo(() => newMoving(tools), [tools]);
  const held = moving.held.value;
  const tried = tools.tried.value?.preview?.shape ?? null;
  const before = held?.before ?? order.shape;
  const shape = held?.seen?.preview.shape ?? order.shape;
  const [style, ...others] = order.shape.choices;

  useLayoutEffect(() => {
    if (held?.seen) performance.measure("handle-request", { start: held.seen.asked, end: performance.now() });
  }, [held?.seen]);

  return (
    <>
      {style && <StyleLine tools={tools} choice={style} />}
      {shape.pieces.length === 0 ? (
        <p class="lead undrafted">{order.shape.head.summary}</p>
      ) : (
        <Pieces shape={shape} before={before} tried={tried} moving={moving} />
      )}
      <Trouble problem={held?.problem ?? null} />
      <TriedHere tools={tools} />
      <FieldHalves tools={tools} fields={shape.fields.filter((field) => !isAllowance(field))} />
      <BackOne
        back={order.back}
        forward={order.forward}
        onBack={() => void tools.undo("back")}
        onForward={() => void tools.undo("forward")}
      />
      {others.length > 0 && (
        <>
          <h3>The design</h3>
          <div class="designwords">
            {others.map((choice) => (
              <ChoiceWords key={choice.path} tools={tools} choice={choice} />
            ))}
          </div>
        </>
      )}
      <Besides tools={tools} shape={shape} />
      <More tools={tools} shape={shape} />
    </>
  );
}

/** What is added to the seam line, and where no handle is: folded away, since the usual serves. */
function isAllowance(field: Field): boolean {
  return field.path.startsWith("allowances.");
}

function FieldHalves({ tools, fields }: { readonly tools: OrderTools; readonly fields: readonly Field[] }) {
  return (
    <div class="two fields">
      {halves(fields).map((half, i) => (
        <div key={i} class="fieldlines">
          {half.map((field) => (
            <FieldLine key={field.path} tools={tools} field={field} />
          ))}
        </div>
      ))}
    </div>
  );
}

function halves<T>(list: readonly T[]): readonly (readonly T[])[] {
  const half = Math.ceil(list.length / 2);
  return [list.slice(0, half), list.slice(half)];
}

/** Parts of the body of the suit share its levels; a skirt hangs from its own. */
function isBody(piece: PieceView): boolean {
  return /front|back/.test(piece.key) && !piece.key.includes("skirt");
}

/** Front and back abreast at one scale, waist level with waist; on the phone one of them at a time or both below another. */
function Pieces({ shape, before, tried, moving }: {
  readonly shape: ShapeView;
  readonly before: ShapeView;
  readonly tried: ShapeView | null;
  readonly moving: Moving;
}) {
  // Whatever has a handle must be large enough to take hold of.
  const held = (all: readonly PieceView[]): readonly PieceView[] => {
    const named = mainPieces(all);
    return all.filter((piece) => named.includes(piece) || shape.handles.some((handle) => handle.piece === piece.key));
  };
  const main = held(shape.pieces);
  const others = shape.pieces.filter((piece) => !main.includes(piece));
  // The frame is that of the order's own shape, so that nothing rescales under the hand.
  const still = held(before.pieces);
  const frames = still.map((piece) => piece.frame);
  const bodies = still.filter((piece) => isBody(piece)).map((piece) => piece.frame);
  const level = around(bodies.length > 0 ? bodies : frames);
  const wide = Math.max(...(bodies.length > 0 ? bodies : frames).map((frame) => frame.width), 1);
  const box = (piece: PieceView): Frame => {
    const frame = still.find((one) => one.key === piece.key)?.frame ?? piece.frame;
    const tall = isBody(piece) ? level : frame;
    const across = Math.max(wide, isBody(piece) ? 0 : frame.width);
    return { x: frame.x + (frame.width - across) / 2, y: tall.y, width: across, height: tall.height };
  };
  return (
    <>
      <div class="two pieces">
        {main.map((piece) => (
          <Drawing
            key={piece.key}
            piece={piece}
            old={before.pieces.find((one) => one.key === piece.key)}
            proposal={tried?.pieces.find((one) => one.key === piece.key)}
            shape={shape}
            moving={moving}
            box={box(piece)}
          />
        ))}
      </div>
      {others.length > 0 && <Others pieces={others} tried={tried} />}
    </>
  );
}

function Drawing({ piece, old, proposal, shape, moving, box }: {
  readonly piece: PieceView;
  readonly old: PieceView | undefined;
  readonly proposal: PieceView | undefined;
  readonly shape: ShapeView;
  readonly moving: Moving;
  readonly box: Frame;
}) {
  const drawing = useRef<SVGSVGElement>(null);
  const px = useMmPerPixel(drawing, box.width + 2 * ROOM, box.height + 2 * ROOM);
  const [focused, setFocused] = useState<string | null>(null);
  const held = moving.held.value?.handle ?? null;
  const handles = shape.handles.filter((handle) => handle.piece === piece.key);
  const isMoved = handles.some((handle) => handle.key === held);
  const hot = handles.find((handle) => handle.key === (isMoved ? held : focused));
  return (
    <svg
      ref={drawing}
      class="piecedrawing"
      viewBox={viewBox(box, ROOM)}
      role="group"
      aria-label={`${piece.name}, cut ${piece.cut}. Handles: ${handles.map((handle) => handle.name).join(", ") || "none"}.`}
      onFocusIn={(event) => {
        const id = event.target instanceof Element ? (event.target.closest(".handle")?.id ?? "") : "";
        setFocused(id.replace(/^handle-/, "") || null);
      }}
      onFocusOut={() => setFocused(null)}
    >
      <Piece piece={piece} px={px}>
        {isMoved && old && <path key="old" class="k-old" d={old.cut_line} />}
        {proposal && proposal.cut_line !== piece.cut_line && <path key="proposal" class="k-old proposal" d={proposal.cut_line} />}
        {hot && <path key="hot" class="k-hot" d={hot.edge} />}
      </Piece>
      {handles.map((handle) => (
        <Handle key={handle.key} handle={handle} moving={moving} px={px} isRight={handle.at.x > box.x + box.width * 0.55} />
      ))}
    </svg>
  );
}

/** The other pieces, small and at one scale, with their names. */
function Others({ pieces, tried }: { readonly pieces: readonly PieceView[]; readonly tried: ShapeView | null }) {
  const tall = Math.max(...pieces.map((piece) => piece.frame.height), 1);
  return (
    <ul class="smallpieces" aria-label="Other pieces">
      {pieces.map((piece) => {
        const proposal = tried?.pieces.find((one) => one.key === piece.key);
        return (
          <li key={piece.key}>
            <svg
              viewBox={viewBox(piece.frame, 6)}
              style={{ height: `${Math.max(24, (150 * (piece.frame.height + 12)) / (tall + 12))}px` }}
              aria-hidden="true"
            >
              <Piece piece={piece} px={1} plain>
                {proposal && proposal.cut_line !== piece.cut_line && <path class="k-old proposal" d={proposal.cut_line} />}
              </Piece>
            </svg>
            <b>{piece.name}</b>
            <span class="small">{piece.cut}</span>
          </li>
        );
      })}
    </ul>
  );
}

/** What is read less often: allowances, seams as they were walked, and the suit's own measurements. */
function More({ tools, shape }: { readonly tools: OrderTools; readonly shape: ShapeView }) {
  const [open, setOpen] = useState<"allowances" | "seams" | "finished" | null>(null);
  const allowances = shape.fields.filter(isAllowance);
  const wanted = tools.wanted.value;
  useEffect(() => {
    if (allowances.some((field) => field.path === wanted)) setOpen("allowances");
  }, [wanted]);
  useEffect(() => {
    if (open === "seams" && shape.seams.length === 0) setOpen(null);
  }, [shape.seams.length]);
  if (shape.seams.length === 0 && shape.finished.length === 0 && allowances.length === 0) return null;
  return (
    <div class="morepieces">
      <Acts>
        {allowances.length > 0 && (
          <Word
            expanded={open === "allowances"}
            controls="shape-allowances"
            onClick={() => setOpen(open === "allowances" ? null : "allowances")}
          >
            Allowances
          </Word>
        )}
        {shape.seams.length > 0 && (
          <Word expanded={open === "seams"} controls="shape-seams" onClick={() => setOpen(open === "seams" ? null : "seams")}>
            Seams, walked
          </Word>
        )}
        {shape.finished.length > 0 && (
          <Word expanded={open === "finished"} controls="shape-finished" onClick={() => setOpen(open === "finished" ? null : "finished")}>
            The finished suit, measured flat
          </Word>
        )}
      </Acts>
      <div id="shape-allowances" hidden={open !== "allowances"}>
        {open === "allowances" && <FieldHalves tools={tools} fields={allowances} />}
      </div>
      <div id="shape-seams" hidden={open !== "seams"}>
        {open === "seams" && (
          <Table
            caption="Seams and the lengths of their two sides"
            rowKey={(row) => row.name}
            rows={shape.seams}
            columns={[
              { key: "seam", head: "Seam", cell: (row) => row.name },
              {
                key: "one side",
                head: "One side",
                right: true,
                cell: (row) => <AskedFigure tools={tools} quantity={row.first} label={`why ${row.name}?`} />,
              },
              {
                key: "the other",
                head: "The other",
                right: true,
                cell: (row) => <AskedFigure tools={tools} quantity={row.second} label={`why ${row.name}, other side?`} />,
              },
              { key: "eased in", head: "Eased in", right: true, cell: (row) => (row.ease === "" ? "nothing" : row.ease) },
            ]}
          />
        )}
      </div>
      <div id="shape-finished" hidden={open !== "finished"}>
        {open === "finished" && (
          <Lines name="The finished suit, measured flat">
            {shape.finished.map((line) => (
              <Line
                key={line.name}
                name={line.name}
                quantity={shown(line.value)}
                {...(line.value.why !== null && {
                  asked: (
                    <Asked tools={tools} why={line.value.why} label={line.name}>
                      why?
                    </Asked>
                  ),
                })}
              />
            ))}
          </Lines>
        )}
      </div>
    </div>
  );
}

/**
 * The lay on its cloth: selvedges at the sides, cut end above, every piece with its name and arrows. Pieces are moved with
 * pointer, finger or arrow keys; the chosen one shows how far its grain arrow lies from cut end and selvedge.
 */
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Frame, LaidCloth, LaidPiece, LayDrawing, Spot } from "../api/types.js";
import { Weave } from "../cloth/weaves.js";
import { arrows } from "../lib/focus.js";
import { useMmPerPixel } from "../order/scale.js";
import { inWords } from "../order/quantity.js";
import type { Held, Mover } from "./moving.js";

/** Room at the left for the ruler's words, px. */
const RULER = 58;
/** A name stands on a piece that is wide enough for it: size of a letter, its width as a share, share of the piece it may take. */
const NAME_PX = 20;
const LETTER = 0.56;
const ROOM = 0.86;
/** Teeth of the end that is not cut yet, px. */
const TOOTH = 9;
/** A press that moves less is a choice, not a move; px. */
const STILL = 4;
const STEP = 1;
const LEAP = 5;

/** What to do with a box drawn on the cloth, mm. */
export type Marked = (box: Frame) => void;

/** The drawing. `mover` is null while a packing runs; `marks` takes a flaw that is being drawn. */
export function Drawing({ cloth, drawing, mover, marks }: {
  readonly cloth: LaidCloth;
  readonly drawing: LayDrawing;
  readonly mover: Mover | null;
  readonly marks: Marked | null;
}) {
  const svg = useRef<SVGSVGElement>(null);
  const id = useId();
  const { frame } = drawing;
  // The ruler's room is in px, the drawing in mm: the scale is measured, the first one is guessed.
  const px = useMmPerPixel(svg, frame.width * (1 + RULER / 700), 0, frame.width / 640);
  const left = RULER * px;
  const [chosen, choose] = useState<string | null>(null);
  const [box, setBox] = useState<Frame | null>(null);
  const from = useRef<Spot | null>(null);
  const at = (event: PointerEvent): Spot => {
    const area = svg.current?.getBoundingClientRect();
    const clamp = (value: number, most: number): number => Math.round(Math.min(Math.max(value, 0), most));
    if (!area) return { x: 0, y: 0 };
    return {
      x: clamp((event.clientX - area.left) * px - left, frame.width),
      y: clamp((event.clientY - area.top) * px - 6 * px, frame.height),
    };
  };
  const held = mover?.held.value ?? null;
  const heldId = held ? idOf(held) : null;
  // What is moved lies on top.
  const pieces = [...drawing.pieces].sort((a, b) => Number(idOf(a) === heldId) - Number(idOf(b) === heldId));
  const bottom = frame.height;
  const isOdd = drawing.remnant !== "";
  const teeth = Math.max(4, Math.round(frame.width / (2 * TOOTH * px)));
  const step = frame.width / (2 * teeth);
  const zigzag = Array.from({ length: 2 * teeth }, (_, i) => `L${frame.width - (i + 1) * step} ${bottom - (i % 2 === 0 ? TOOTH * px * 0.7 : 0)}`).join("");
  return (
    <svg
      ref={svg}
      class={marks ? "laycloth marking" : "laycloth"}
      viewBox={`${-left} ${-6 * px} ${frame.width + left + 3 * px} ${frame.height + 12 * px}`}
      role="group"
      aria-label={`${cloth.name}: ${drawing.pieces.length} pieces on the cloth, in the order of cutting`}
      onPointerDown={(event) => {
        if (!marks || event.button !== 0) return;
        event.preventDefault();
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = at(event);
        setBox({ ...from.current, width: 0, height: 0 });
      }}
      onPointerMove={(event) => {
        if (!from.current) return;
        const to = at(event);
        const [x, y] = [Math.min(to.x, from.current.x), Math.min(to.y, from.current.y)];
        setBox({ x, y, width: Math.abs(to.x - from.current.x), height: Math.abs(to.y - from.current.y) });
      }}
      onPointerUp={() => {
        from.current = null;
        if (box && marks && box.width > 1 && box.height > 1) marks(box);
        setBox(null);
      }}
      onPointerCancel={() => {
        from.current = null;
        setBox(null);
      }}
    >
      <defs>
        <Weave id={`${id}-weave`} look={cloth.look} size={Math.max(px, 0.5) * 1.4} />
      </defs>
      <path class="ground" d={isOdd ? drawing.remnant : `M0 0H${frame.width}V${bottom}${zigzag}Z`} fill={`url(#${id}-weave)`} />
      {isOdd && <path class="oddedge" d={drawing.remnant} />}
      <g class="layruler" aria-hidden="true">
        {drawing.marks.map((mark) => (
          <g key={mark.at}>
            <path d={`M0 ${mark.at}h${-(mark.words === "" ? 6 : 10) * px}`} />
            {mark.words !== "" && mark.at < bottom && (
              <text x={-13 * px} y={mark.at + 5 * px} font-size={14 * px}>
                {mark.words}
              </text>
            )}
          </g>
        ))}
      </g>
      {!isOdd && <path class="selvedge" d={drawing.fold === "single" ? `M0 0V${bottom}M${frame.width} 0V${bottom}` : `M${frame.width} 0V${bottom}`} />}
      {drawing.fold !== "single" && <path class="clothfold" d={`M0 0V${bottom}`} />}
      {drawing.fold === "partial" && (
        <>
          <path class="doubled" d={`M0 0H${drawing.fold_at}V${bottom}H0Z`} />
          <path class="upperselvedge" d={`M${drawing.fold_at} 0V${bottom}`} />
        </>
      )}
      {!isOdd && <path class="cutend" d={`M0 0H${frame.width}`} />}
      {drawing.end < bottom - 1 && (
        <g class="layend">
          <path class="halo" d={`M0 ${drawing.end}H${frame.width}`} />
          <path d={`M0 ${drawing.end}H${frame.width}`} />
        </g>
      )}
      {!isOdd && <rect class="usable" x={drawing.usable.x} y={drawing.usable.y} width={drawing.usable.width} height={Math.max(0, drawing.usable.height)} />}
      {drawing.rest.slice(0, 2).map((rest) => (
        <Rest key={`${rest.frame.x} ${rest.frame.y}`} frame={rest.frame} words={rest.words} px={px} />
      ))}
      {drawing.flaws.map((flaw, i) => (
        <Flaw key={i} box={flaw} px={px} />
      ))}
      {pieces.map((piece) => (
        <Piece
          key={idOf(piece)}
          piece={piece}
          held={held && idOf(piece) === heldId ? held : null}
          px={px}
          mover={marks ? null : mover}
          isChosen={chosen === idOf(piece)}
          onChosen={(is) => choose((old) => (is ? idOf(piece) : old === idOf(piece) ? null : old))}
        />
      ))}
      {drawing.pieces
        .filter((piece) => idOf(piece) === chosen && !held)
        .map((piece) => (
          <Chalk key="chalk" piece={piece} px={px} width={frame.width} />
        ))}
      {box && <Flaw box={box} px={px} />}
    </svg>
  );
}

/** Names a piece on the cloth. */
export function idOf(of: { readonly piece: string; readonly copy: number }): string {
  return `${of.piece}.${of.copy}`;
}

function Rest({ frame, words, px }: { readonly frame: Frame; readonly words: string; readonly px: number }) {
  const long = `${words} left whole`;
  const size = 16 * px;
  const room = frame.width * ROOM;
  if (frame.height < 2.4 * size || words.length * size * LETTER > room) return null;
  const says = long.length * size * LETTER < room ? long : words;
  const [x, y] = [frame.x + frame.width / 2, frame.y + frame.height / 2];
  const wide = says.length * size * LETTER + size;
  return (
    <g>
      <rect class="restslip" x={x - wide / 2} y={y - size * 0.85} width={wide} height={size * 1.7} />
      <text class="resttext" x={x} y={y + 5 * px} font-size={size}>
        {says}
      </text>
    </g>
  );
}

/** Crossed out: nothing lies on it. */
function Flaw({ box, px }: { readonly box: Frame; readonly px: number }) {
  const { x, y, width, height } = box;
  const crossed = `M${x} ${y}h${width}v${height}h${-width}ZM${x} ${y}l${width} ${height}M${x} ${y + height}l${width} ${-height}`;
  return (
    <g class="layflaw">
      <path class="halo" d={crossed} />
      <path d={crossed} />
      {height > 22 * px && width > 60 * px && (
        <text x={x + width / 2} y={y - 4 * px} font-size={14 * px}>
          flaw
        </text>
      )}
    </g>
  );
}

/** From the foot of the grain arrow to the cut end and to the selvedge: the first of the two chalk marks, and where the second is. */
function Chalk({ piece, px, width }: { readonly piece: LaidPiece; readonly px: number; readonly width: number }) {
  const [foot, head] = piece.grain;
  const [down, right, headDown] = piece.chalk;
  const isNear = foot.x < width * 0.75;
  const beside = (isNear ? 8 : -8) * px;
  const anchor = isNear ? "start" : "end";
  return (
    <g class="chalk" aria-hidden="true">
      <path d={`M${foot.x} ${foot.y}V0M${foot.x} ${foot.y}H0`} />
      <circle cx={foot.x} cy={foot.y} r={4.5 * px} />
      <circle cx={head.x} cy={head.y} r={4.5 * px} />
      <text x={foot.x + beside} y={Math.max(foot.y, head.y) + 22 * px} font-size={16 * px} text-anchor={anchor}>
        {`${inWords(down)} down, ${inWords(right)} in`}
      </text>
      <text x={head.x + beside} y={Math.min(head.y, foot.y) - 10 * px} font-size={16 * px} text-anchor={anchor}>
        {`${inWords(headDown)} down`}
      </text>
    </g>
  );
}

function Piece({ piece, held, px, mover, isChosen, onChosen }: {
  readonly piece: LaidPiece;
  readonly held: Held | null;
  readonly px: number;
  readonly mover: Mover | null;
  readonly isChosen: boolean;
  readonly onChosen: (is: boolean) => void;
}) {
  const group = useRef<SVGGElement>(null);
  const grip = useRef<{ readonly x: number; readonly y: number; readonly right: number; readonly down: number; moved: boolean } | null>(null);
  // A finger that starts on the chosen piece moves it; on any other it scrolls the page.
  useLayoutEffect(() => {
    const element = group.current;
    if (!element || !isChosen || !mover) return;
    const still = (event: TouchEvent): void => event.preventDefault();
    element.addEventListener("touchstart", still, { passive: false });
    return () => element.removeEventListener("touchstart", still);
  }, [isChosen, mover]);
  const drawn = held?.drawn?.piece ?? piece;
  const moved = held ? { x: held.right - (held.drawn?.right ?? 0), y: held.down - (held.drawn?.down ?? 0) } : { x: 0, y: 0 };
  const isBad = held !== null && held.faults.length > 0;
  const room = drawn.frame.width * ROOM;
  const isNamed = drawn.name.length * NAME_PX * px * LETTER < room && drawn.frame.height > 70 * px;
  const isTall = drawn.frame.height > 110 * px;
  const note = [drawn.note, piece.by_hand ? "by hand" : ""].filter((word) => word !== "").join(", ");
  const key = (event: KeyboardEvent): void => {
    if (!mover) return;
    if (event.key === "Escape" && held) {
      event.preventDefault();
      event.stopPropagation();
      mover.back();
    } else if (event.key === "Enter" && held) {
      event.preventDefault();
      void mover.keep();
    } else if ((event.key === "t" || event.key === "T") && piece.can_turn && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      mover.to(piece, held?.right ?? 0, held?.down ?? 0, (held?.turns ?? 0) + 1);
    }
    const arrow = arrows[event.key];
    if (!arrow) return;
    event.preventDefault();
    const by = event.shiftKey ? LEAP : STEP;
    mover.to(piece, (held?.right ?? 0) + arrow.x * by, (held?.down ?? 0) + arrow.y * by);
  };
  const letGo = (): void => {
    const was = grip.current;
    grip.current = null;
    if (was?.moved) void mover?.keep();
  };
  const keys = `Arrow keys move it, with Shift by five.${piece.can_turn ? " T turns it." : ""} Enter keeps, Escape puts it back.`;
  return (
    <g
      ref={group}
      id={`laid-${idOf(piece)}`}
      class={`laid-piece${isChosen ? " chosen" : ""}${held ? " held" : ""}${isBad ? " refused" : ""}${mover ? "" : " still"}`}
      role="button"
      tabIndex={0}
      aria-label={`${piece.name}${note === "" ? "" : `, ${note}`}: grain arrow from ${piece.chalk[0].spoken} off the cut end and ${piece.chalk[1].spoken} off the selvedge. ${mover ? keys : ""}`}
      transform={`translate(${moved.x} ${moved.y})`}
      onFocus={() => onChosen(true)}
      onBlur={() => onChosen(false)}
      onKeyDown={key}
      onPointerDown={(event) => {
        if (!mover || event.button !== 0 || held?.isKept) return;
        // The first touch chooses, the next one moves.
        if (event.pointerType === "touch" && !isChosen) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        event.currentTarget.focus({ preventScroll: true });
        event.preventDefault();
        grip.current = { x: event.clientX, y: event.clientY, right: held?.right ?? 0, down: held?.down ?? 0, moved: false };
      }}
      onPointerMove={(event) => {
        const was = grip.current;
        if (!was || !mover) return;
        const [x, y] = [event.clientX - was.x, event.clientY - was.y];
        if (!was.moved && Math.hypot(x, y) < STILL) return;
        was.moved = true;
        const tenth = (mm: number): number => Math.round(mm * 10) / 10;
        mover.to(piece, tenth(was.right + x * px), tenth(was.down + y * px));
      }}
      onPointerUp={letGo}
      onPointerCancel={() => {
        grip.current = null;
        mover?.back();
      }}
    >
      <path class="piece" d={drawn.outline} />
      <path class="k-cut" d={drawn.outline} />
      {isTall && <path class="k-grain" d={arrow(drawn.grain[0], drawn.grain[1], px, false)} />}
      {isTall && drawn.frame.width > 60 * px && <path class="k-grain" d={arrow(drawn.stretch[0], drawn.stretch[1], px, true)} />}
      <text class="piecename" x={drawn.label.x} y={drawn.label.y} font-size={(isNamed ? NAME_PX : 16) * px}>
        {isNamed ? drawn.name : drawn.letter}
      </text>
      {/* A word apart, so that the two are read as they are told. */ " "}
      {isNamed && note !== "" && note.length * 14 * px * LETTER < room && (
        <text class="piececut" x={drawn.label.x} y={drawn.label.y + 19 * px} font-size={14 * px}>
          {note}
        </text>
      )}
    </g>
  );
}

/** Grain: a foot bar and an open head. Stretch: heads at both ends and three ribs in the middle. */
function arrow(from: Spot, to: Spot, px: number, both: boolean): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.hypot(dx, dy);
  if (long === 0) return "";
  const [ux, uy] = [dx / long, dy / long];
  const at = (spot: Spot, along: number, aside: number): string =>
    `${(spot.x + (ux * along - uy * aside) * px).toFixed(2)} ${(spot.y + (uy * along + ux * aside) * px).toFixed(2)}`;
  const head = (tip: Spot, back: number): string => `M${at(tip, back, 2.7)}L${at(tip, 0, 0)}L${at(tip, back, -2.7)}`;
  const shaft = `M${at(from, 0, 0)}L${at(to, 0, 0)}${head(to, -6)}`;
  if (!both) return `${shaft}M${at(from, 0, 4)}L${at(from, 0, -4)}`;
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const rib = (along: number): string => `M${at(middle, along, 4)}L${at(middle, along, -4)}`;
  return `${shaft}${head(from, 6)}${rib(-3)}${rib(0)}${rib(3)}`;
}

/** One pattern piece as cut paper on a table: cut line, dashed seam, name, grain and stretch arrows, levels in dots. */
import type { ComponentChildren } from "preact";
import type { Frame, MarkView, PieceView, Spot } from "../api/types.js";

/** Head of an arrow, px. */
const HEAD = 6;
/** Half length of the ribs that mark the greater stretch, px. */
const RIB = 4;

/** The piece itself, in mm; `px` is how many mm one screen pixel covers. `plain` leaves name, arrows and levels out. */
export function Piece({ piece, px, plain = false, children }: {
  readonly piece: PieceView;
  readonly px: number;
  readonly plain?: boolean;
  /** Drawn above the paper and below the name: old lines, hot edges. */
  readonly children?: ComponentChildren;
}) {
  return (
    <>
      <path class="piece cut" d={piece.cut_line} />
      {!plain && piece.marks.map((mark, i) => <path key={`mark${i}`} class={mark.kind === "level" ? "k-level" : "k-fine"} d={mark.path} />)}
      <path key="seam" class="k-seam" d={piece.seam_line} />
      <path key="cut" class="k-cut" d={piece.cut_line} />
      {piece.fold_line !== null && <path key="fold" class="k-fold" d={piece.fold_line} />}
      <path key="notches" class="notches" d={piece.notches} />
      {children}
      {!plain && (
        <g key="words" class="piecewords" aria-hidden="true">
          {piece.marks.map(
            (mark, i) =>
              mark.words !== "" &&
              !isNamedLeft(mark, piece) && (
                <text
                  key={`word${i}`}
                  x={mark.at.x + (mark.kind === "cross" && isLeft(mark.at, piece) ? -4 : 4) * px}
                  y={mark.at.y - (mark.kind === "cross" ? 0 : 4 * px)}
                  font-size={14 * px}
                  text-anchor={mark.kind === "cross" && isLeft(mark.at, piece) ? "end" : "start"}
                >
                  {shortWords(mark.words)}
                </text>
              ),
          )}
          <path class="k-grain" d={arrow(piece.grain[0], piece.grain[1], px, false)} />
          <path class="k-grain" d={arrow(piece.stretch[0], piece.stretch[1], px, true)} />
          <text class="piecename" x={piece.label.x} y={piece.label.y} font-size={20 * px}>
            {piece.name}
          </text>
          <text class="piececut" x={piece.label.x} y={piece.label.y + 20 * px} font-size={14 * px}>
            {piece.cut}
          </text>
        </g>
      )}
    </>
  );
}

/** Of two crosses of one name the left one carries it: on the right the grain arrow stands. */
function isNamedLeft(mark: MarkView, piece: PieceView): boolean {
  const isOne = (other: MarkView): boolean => other.kind === "cross" && other.words === mark.words && isLeft(other.at, piece);
  return mark.kind === "cross" && !isLeft(mark.at, piece) && piece.marks.some(isOne);
}

/** What a mark is called; how far it lies from another is told in numbers beside the drawing and on the paper. */
function shortWords(words: string): string {
  return words.split(",")[0] ?? words;
}

/** Words of a cross left of the middle stand on its left, so that they never run over the fold. */
function isLeft(at: Spot, piece: PieceView): boolean {
  return at.x < piece.frame.x + piece.frame.width / 2;
}

/** Grain: a foot bar and an open head. Stretch: heads at both ends and three ribs in the middle. */
function arrow(from: Spot, to: Spot, px: number, both: boolean): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.hypot(dx, dy);
  if (long === 0) return "";
  const [ux, uy] = [dx / long, dy / long];
  const at = (spot: Spot, along: number, aside: number): string =>
    `${(spot.x + (ux * along - uy * aside) * px).toFixed(2)} ${(spot.y + (uy * along + ux * aside) * px).toFixed(2)}`;
  const head = (tip: Spot, back: number): string => `M${at(tip, back, HEAD * 0.45)}L${at(tip, 0, 0)}L${at(tip, back, -HEAD * 0.45)}`;
  const shaft = `M${at(from, 0, 0)}L${at(to, 0, 0)}${head(to, -HEAD)}`;
  if (!both) return `${shaft}M${at(from, 0, RIB)}L${at(from, 0, -RIB)}`;
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const rib = (along: number): string => `M${at(middle, along, RIB)}L${at(middle, along, -RIB)}`;
  return `${shaft}${head(from, HEAD)}${rib(-3)}${rib(0)}${rib(3)}`;
}

/** The smallest box around several. */
export function around(frames: readonly Frame[]): Frame {
  const first = frames[0] ?? { x: 0, y: 0, width: 1, height: 1 };
  return frames.reduce((box, frame) => {
    const x = Math.min(box.x, frame.x);
    const y = Math.min(box.y, frame.y);
    return {
      x,
      y,
      width: Math.max(box.x + box.width, frame.x + frame.width) - x,
      height: Math.max(box.y + box.height, frame.y + frame.height) - y,
    };
  }, first);
}

/** As an SVG's `viewBox`, with room on every side. */
export function viewBox(frame: Frame, room: number): string {
  return `${frame.x - room} ${frame.y - room} ${frame.width + 2 * room} ${frame.height + 2 * room}`;
}

/** Front and back where there are such pieces, else the first two; the rest are drawn small. */
export function mainPieces(pieces: readonly PieceView[]): readonly PieceView[] {
  const front = pieces.find((piece) => piece.key === "front") ?? pieces.find((piece) => piece.key.startsWith("front"));
  const back = pieces.find((piece) => piece.key === "back") ?? pieces.find((piece) => piece.key.startsWith("back"));
  const found = [front, back].filter((piece): piece is PieceView => piece !== undefined);
  return found.length > 0 ? found : pieces.slice(0, 2);
}

/**
 * The projector view: outlines at true size, light on dark or dark on light, moved until they lie on the cloth. A square of
 * 100 mm makes the size true; it is measured on the table, not on the screen.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { PieceView } from "../api/types.js";
import { Failed, get, patch } from "../lib/api.js";
import { isField } from "../lib/keys.js";
import type { Problem } from "../lib/quantity.js";
import { PLAIN_MM } from "../lib/store.js";
import { recall, remember } from "../lib/tab.js";
import { Nowhere } from "../frame/nowhere.js";
import { useOrder } from "../order/page.js";
import { API } from "../order/studio.js";
import type { Order } from "../order/tools.js";
import { Choice } from "../parts/choice.js";
import { Trouble } from "../parts/trouble.js";
import { Word } from "../parts/touch.js";

/** Side of the square to measure, and room between pieces; mm. */
const SQUARE = 100;
const GAP = 30;
/** Arrow keys move the outlines by this many mm, with Shift by ten times as much. */
const STEP = 1;
/** Arrow keys change the square by this share, with Shift by ten times as much: 0.1 mm on its side. */
const SCALE_STEP = 0.001;

interface Settings {
  readonly projector: { readonly px_per_mm: number | null };
}

/** What is remembered of the view in this tab. */
interface View {
  readonly x: number;
  readonly y: number;
  readonly isDark: boolean;
  readonly isMirrored: boolean;
  readonly off: readonly string[];
}

const start: View = { x: GAP, y: GAP, isDark: true, isMirrored: false, off: [] };

/** The view of one suit. */
export function ProjectorPage({ suit }: { readonly suit: string }) {
  const { order, problem, isGone } = useOrder(suit);
  if (order) return <Projector key={suit} order={order} />;
  if (problem && isGone) return <Nowhere says={problem.what} />;
  return (
    <main class="projector dark">
      <Trouble problem={problem} />
    </main>
  );
}

function Projector({ order }: { readonly order: Order }) {
  const { suit, shape } = order.tools.order.value;
  const store = `projector.${suit.id}`;
  const [view, setView] = useState<View>(() => read(store));
  const [scale, setScale] = useState<number>(PLAIN_MM);
  const [isTrue, setTrue] = useState(false);
  const [measuring, setMeasuring] = useState(false);
  const [words, setWords] = useState(true);
  const [problem, setProblem] = useState<Problem | null>(null);
  const page = useRef<HTMLElement>(null);
  const drag = useRef<{ readonly x: number; readonly y: number; readonly from: View } | null>(null);

  useEffect(() => {
    document.title = `Projector: ${suit.name}`;
    get<Settings>(`${API}/settings`).then(
      (settings) => {
        if (settings.projector.px_per_mm !== null && settings.projector.px_per_mm > 0) {
          setScale(settings.projector.px_per_mm);
          setTrue(true);
        }
      },
      (error: unknown) => setProblem(error instanceof Failed ? error.first : { what: "The kept size could not be read." }),
    );
  }, []);
  useEffect(() => {
    remember(store, view);
  }, [view]);
  const keepScale = async (): Promise<void> => {
    setProblem(null);
    try {
      await patch(`${API}/settings`, { projector: { px_per_mm: scale } });
      setTrue(true);
      setMeasuring(false);
    } catch (error) {
      setProblem(error instanceof Failed ? error.first : { what: "The size was not kept." });
    }
  };
  const move = (dx: number, dy: number): void => setView((now) => ({ ...now, x: now.x + dx, y: now.y + dy }));
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || isField(event.target)) return;
      // Words on a line answer arrows themselves.
      if (event.target instanceof Element && event.target.closest('[role="radiogroup"]')) return;
      const big = event.shiftKey ? 10 : 1;
      if (event.key === "h" || event.key === "H") setWords((now) => !now);
      else if (measuring && (event.key === "ArrowUp" || event.key === "ArrowRight")) setScale((now) => now * (1 + SCALE_STEP * big));
      else if (measuring && (event.key === "ArrowDown" || event.key === "ArrowLeft")) setScale((now) => now * (1 - SCALE_STEP * big));
      else if (measuring && event.key === "Enter" && event.target === document.body) void keepScale();
      else if (event.key === "ArrowLeft") move(-STEP * big, 0);
      else if (event.key === "ArrowRight") move(STEP * big, 0);
      else if (event.key === "ArrowUp") move(0, -STEP * big);
      else if (event.key === "ArrowDown") move(0, STEP * big);
      else return;
      event.preventDefault();
    };
    document.addEventListener("keydown", key);
    return () => document.removeEventListener("keydown", key);
  });

  const on = shape.pieces.filter((piece) => !view.off.includes(piece.key));
  const drawn = `Outlines at ${isTrue ? "true" : "unmeasured"} size: ${on.map((piece) => piece.name).join(", ")}`;
  return (
    <main ref={page} class={view.isDark ? "projector dark" : "projector light"}>
      <h1 class="heard">Projector view of {suit.name}</h1>
      <svg
        class="onthetable"
        role="img"
        aria-label={measuring ? "A square of 100 mm to be measured on the table" : drawn}
        onPointerDown={(event) => {
          if (event.button !== 0 || measuring) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          drag.current = { x: event.clientX, y: event.clientY, from: view };
        }}
        onPointerMove={(event) => {
          const held = drag.current;
          if (!held) return;
          const side = view.isMirrored ? -1 : 1;
          setView({
            ...view,
            x: held.from.x + (side * (event.clientX - held.x)) / scale,
            y: held.from.y + (event.clientY - held.y) / scale,
          });
        }}
        onPointerUp={() => {
          drag.current = null;
        }}
        onPointerCancel={() => {
          drag.current = null;
        }}
      >
        {measuring ? (
          <g transform={`translate(60 60) scale(${scale})`}>
            <rect class="square" width={SQUARE} height={SQUARE} />
            <path class="square" d={`M${SQUARE / 2 - 5} ${SQUARE / 2}h10M${SQUARE / 2} ${SQUARE / 2 - 5}v10`} />
          </g>
        ) : (
          <g class={view.isMirrored ? "mirrored" : undefined}>
            <g transform={`scale(${scale}) translate(${view.x} ${view.y})`}>
              {placed(on).map(({ piece, x }) => (
                <Outline key={piece.key} piece={piece} x={x} />
              ))}
            </g>
          </g>
        )}
      </svg>
      {words ? (
        <div class="controls">
          {measuring ? (
            <>
              <p>
                Measure the square on the table: both sides must be 100 mm. Arrow keys change it by a tenth of a millimetre, with
                Shift by one. Sides that differ: set the projector straight first.
              </p>
              <div class="acts">
                <Word onClick={() => setScale(scale * (1 - SCALE_STEP))}>Smaller</Word>
                <Word onClick={() => setScale(scale * (1 + SCALE_STEP))}>Larger</Word>
                <Word onClick={() => void keepScale()}>It measures 100 mm</Word>
                <Word onClick={() => setMeasuring(false)}>Leave it</Word>
              </div>
            </>
          ) : (
            <>
              {!isTrue && <p>The size is not true yet: measure the square first.</p>}
              <div class="acts">
                <Choice
                  hideName
                  name="Lines"
                  options={[
                    { value: "dark", says: "White on black" },
                    { value: "light", says: "Black on white" },
                  ]}
                  value={view.isDark ? "dark" : "light"}
                  onChange={(value) => setView({ ...view, isDark: value === "dark" })}
                />
                <Word onClick={() => setMeasuring(true)}>Measure the square</Word>
                <Word onClick={() => setView({ ...view, isMirrored: !view.isMirrored })}>
                  {view.isMirrored ? "Not mirrored" : "Mirrored"}
                </Word>
                <Word onClick={() => setView({ ...start, isDark: view.isDark })}>Back to the corner</Word>
                <Word onClick={() => void page.current?.requestFullscreen().catch(() => undefined)}>Whole screen</Word>
                <Word onClick={() => setWords(false)}>Hide these words (H)</Word>
                <Word href={`/suits/${encodeURIComponent(suit.id)}#paper`}>Back to the order</Word>
              </div>
              <fieldset class="onoff">
                <legend class="heard">Pieces shown</legend>
                {shape.pieces.map((piece) => (
                  <label key={piece.key}>
                    <input
                      type="checkbox"
                      checked={!view.off.includes(piece.key)}
                      onChange={(event) => {
                        const off = view.off.filter((key) => key !== piece.key);
                        setView({ ...view, off: event.currentTarget.checked ? off : [...off, piece.key] });
                      }}
                    />
                    {piece.name}
                  </label>
                ))}
              </fieldset>
            </>
          )}
          <Trouble problem={problem} />
        </div>
      ) : (
        <button type="button" class="showwords" onClick={() => setWords(true)}>
          Words
        </button>
      )}
    </main>
  );
}

function Outline({ piece, x }: { readonly piece: PieceView; readonly x: number }) {
  return (
    <g transform={`translate(${x - piece.frame.x} ${-piece.frame.y})`}>
      <path d={piece.cut_line} />
      <path class="thin" d={piece.seam_line} />
      {piece.fold_line !== null && <path class="thin" d={piece.fold_line} />}
      <path d={piece.notches} />
      {piece.marks.map((mark, i) => (
        <path key={i} class="thin" d={mark.path} />
      ))}
      <path class="thin" d={`M${piece.grain[0].x} ${piece.grain[0].y}L${piece.grain[1].x} ${piece.grain[1].y}`} />
      <text x={piece.label.x} y={piece.label.y} font-size="14">
        {piece.letter} {piece.name}
      </text>
      <text x={piece.label.x} y={piece.label.y + 12} font-size="9">
        {piece.cut}
      </text>
    </g>
  );
}

/** One beside another. */
function placed(pieces: readonly PieceView[]): readonly { readonly piece: PieceView; readonly x: number }[] {
  let x = 0;
  return pieces.map((piece) => {
    const one = { piece, x };
    x += piece.frame.width + GAP;
    return one;
  });
}

function read(store: string): View {
  const held = recall(store);
  return typeof held === "object" && held !== null ? { ...start, ...(held as Partial<View>) } : start;
}

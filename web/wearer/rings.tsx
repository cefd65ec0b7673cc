/**
 * The form in section rings, drawn as a dress form one can turn: by dragging it sideways or with the arrow keys. The half
 * of each ring behind the body is paler; a tape lies on it as an oat band; with `weights` a ring is drawn heavier where the
 * suit squeezes more.
 */
import { useMemo, useRef } from "preact/hooks";
import type { FormView } from "../api/types.js";
import { boxOf, centreFront, ringPaths, tapePaths, viewAt, weightAt } from "./turning.js";

/** Line widths of a ring, px: unweighted, and from no squeeze to the most. */
const PLAIN = 1.1;
const LIGHT = 0.55;
const HEAVY = 2.5;
/** Width of a real tape, mm, and the least and most it is drawn with on a form of [FORM_PX] height. */
const TAPE = 18;
const FORM_PX = 330;
const TAPE_PX = [4, 10.5] as const;
/** Degrees a step of the arrow keys turns, and with Shift. */
const STEP = 5;
const LEAP = 45;
/** Degrees a pixel of dragging turns. */
const DRAG = 0.5;

/**
 * `turn` in degrees, 0 from the front, positive towards her left side; `onTurn` what it should become, between -180 and 180.
 * `tape` is the key of a dimension of the form's tapes. `weights` are per level, 0 to 1; rings between two levels are drawn
 * between them. `from` and `to`, heights in mm, cut the view to a part of the body. `label` says in a sentence what is drawn.
 */
export function Rings({ form, turn, onTurn, tape, weights, label, from, to }: {
  readonly form: FormView;
  readonly turn: number;
  readonly onTurn: (turn: number) => void;
  readonly tape?: string | null;
  readonly weights?: Readonly<Record<string, number>>;
  readonly label: string;
  readonly from?: number;
  readonly to?: number;
}) {
  const drag = useRef<{ readonly x: number; readonly turn: number } | null>(null);
  const box = boxOf(form, from, to);
  const drawn = useMemo(() => {
    const see = viewAt(turn);
    const weighted = weights
      ? form.rings
          .flatMap((ring) => {
            const weight = ring.level === null ? undefined : weights[ring.level];
            return weight === undefined ? [] : [{ y: ring.y, weight }];
          })
          .sort((a, b) => a.y - b.y)
      : [];
    const found = tape ? form.tapes.find((one) => one.key === tape) : undefined;
    return {
      rings: form.rings.map((ring) => {
        const weight = weightAt(ring.y, weighted);
        return {
          ...ringPaths(ring, see),
          width: !weights ? PLAIN : weight === null ? LIGHT : LIGHT + (HEAVY - LIGHT) * Math.min(1, Math.max(0, weight)),
        };
      }),
      centre: centreFront(form, see),
      tape: found ? tapePaths(found, form, see) : null,
    };
  }, [form, turn, tape, weights]);

  const band = Math.min(TAPE_PX[1], Math.max(TAPE_PX[0], (TAPE * FORM_PX) / box.height));

  const key = (event: KeyboardEvent): void => {
    const by = event.shiftKey ? LEAP : STEP;
    const wanted = ((): number | null => {
      switch (event.key) {
        case "ArrowRight":
        case "ArrowUp":
          return turn + by;
        case "ArrowLeft":
        case "ArrowDown":
          return turn - by;
        case "PageUp":
          return turn + LEAP;
        case "PageDown":
          return turn - LEAP;
        case "Home":
          return 0;
        case "End":
          return 180;
        default:
          return null;
      }
    })();
    if (wanted === null) return;
    event.preventDefault();
    onTurn(round(wanted));
  };

  return (
    <div class="rings">
      <svg
        viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
        preserveAspectRatio="xMidYMid meet"
        role="img"
        aria-label={label}
      >
        {drawn.tape && <path class="tape-behind" d={drawn.tape.back} style={{ strokeWidth: `${band * 0.6}px` }} />}
        <g class="behind">
          {drawn.rings.map((ring, i) => (
            <path key={i} d={ring.back} style={{ strokeWidth: `${ring.width}px` }} />
          ))}
        </g>
        <g class="facing">
          {drawn.rings.map((ring, i) => (
            <path key={i} d={ring.front} style={{ strokeWidth: `${ring.width}px` }} />
          ))}
        </g>
        <path class="centre" d={drawn.centre} />
        {drawn.tape && (
          <g class="tape-facing">
            <path class="edge" d={drawn.tape.front} style={{ strokeWidth: `${band + 2.5}px` }} />
            <path class="band" d={drawn.tape.front} style={{ strokeWidth: `${band}px` }} />
            <path class="ticks" d={drawn.tape.ticks} />
          </g>
        )}
      </svg>
      <div
        class="turn"
        role="slider"
        tabIndex={0}
        aria-label="Turn the form"
        aria-valuemin={-180}
        aria-valuemax={180}
        aria-valuenow={Math.round(turn)}
        aria-valuetext={said(turn)}
        onKeyDown={key}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          drag.current = { x: event.clientX, turn };
        }}
        onPointerMove={(event) => {
          if (drag.current) onTurn(round(drag.current.turn - (event.clientX - drag.current.x) * DRAG));
        }}
        onPointerUp={() => {
          drag.current = null;
        }}
        onPointerCancel={() => {
          drag.current = null;
        }}
      />
    </div>
  );
}

/** Into -180 to 180. */
function round(turn: number): number {
  const once = ((turn % 360) + 360) % 360;
  return once > 180 ? once - 360 : once;
}

/** "from the front", "35 degrees towards her left". */
function said(turn: number): string {
  const whole = Math.round(turn);
  if (whole === 0) return "from the front";
  if (Math.abs(whole) === 180) return "from behind";
  return `${Math.abs(whole)} degrees towards the ${whole > 0 ? "left" : "right"} side`;
}

/**
 * The form in section rings, drawn as a dress form one can turn: by dragging it sideways or with the arrow keys. The half
 * of each ring behind the body is paler; a tape lies on it as an oat band; with `weights` a ring is drawn heavier where the
 * suit squeezes more.
 */
import { useMemo } from "preact/hooks";
import type { FormView } from "../api/types.js";
import { Turner } from "./turner.js";
import { HEAVY, LIGHT, boxOf, centreFront, ringPaths, tapePaths, viewAt, weightAt } from "./turning.js";

/** Line width of a ring without weights, px. */
const PLAIN = 1.1;
/** Width of a real tape, mm, and the least and most it is drawn with on a form of [FORM_PX] height. */
const TAPE = 18;
const FORM_PX = 330;
const TAPE_PX = [4, 10.5] as const;

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
      <Turner turn={turn} onTurn={onTurn} />
    </div>
  );
}

/** A pull as it was measured: the strip of cloth at rest, what it stretches to, and where it went back to, over a scale in per cent. */
import { useId } from "preact/hooks";
import type { LookView, PullView } from "../api/types.js";
import type { OrderTools } from "../order/context.js";
import { Asked } from "../order/asked.js";
import { shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { StateIcon } from "../parts/icon.js";
import { Weave } from "./weaves.js";

/** Units of the drawing from nought to rest; the scale goes on to twice that. */
const REST = 150;
const LEFT = 8;
const HIGH = 26;
const TOP = 6;

/** `name` heads it: "Across". */
export function Pull({ tools, pull, look, name }: {
  readonly tools: OrderTools;
  readonly pull: PullView;
  readonly look: LookView;
  readonly name: string;
}) {
  return (
    <div class="pulltest">
      <div class="pullhead">
        <p>
          <b>{name}</b> <span class="small">{pull.says === "" ? "not pulled yet" : pull.says}</span>
        </p>
        {pull.stretch ? (
          <span class="percent">
            <Asked tools={tools} why={pull.stretch.why} label={`why ${name.toLowerCase()}?`}>
              <Figure quantity={shown(pull.stretch)} />
            </Asked>
          </span>
        ) : (
          <StateIcon state={pull.state} />
        )}
      </div>
      {pull.drawn !== null && <Strip drawn={pull.drawn} back={pull.drawn_back} look={look} says={`${name}: ${pull.says}`} />}
      {pull.stretch && pull.recovery && (
        <p class="small">
          Goes back <Figure quantity={shown(pull.recovery)} /> of the way.
        </p>
      )}
      {pull.stretch && pull.state !== "good" && <StateIcon state={pull.state} />}
    </div>
  );
}

function Strip({ drawn, back, look, says }: {
  readonly drawn: number;
  readonly back: number | null;
  readonly look: LookView;
  readonly says: string;
}) {
  const id = useId();
  // Twice the rest is 100 %; a cloth that goes farther gets a longer scale.
  const most = Math.max(2, Math.ceil(drawn * 2) / 2);
  const one = (REST * 2) / most;
  const wide = one * most;
  const foot = TOP + HIGH + 4;
  const steps = Array.from({ length: Math.round(most * 10) + 1 }, (_, i) => i);
  return (
    <svg class="strip-drawing" viewBox={`0 0 ${wide + 2 * LEFT} 66`} role="img" aria-label={says}>
      <defs>
        <Weave id={`${id}-weave`} look={look} />
      </defs>
      <g transform={`translate(${LEFT} 0)`}>
        <rect x={one} y={TOP} width={one * (drawn - 1)} height={HIGH} fill={`url(#${id}-weave)`} opacity={0.4} />
        <rect x={0} y={TOP} width={one} height={HIGH} fill={`url(#${id}-weave)`} class="atrest" />
        <path class="restline" d={`M${one} ${TOP - 3}V${TOP + HIGH + 3}`} />
        <path class="pulledline" d={`M${one * drawn} ${TOP - 6}V${TOP + HIGH + 4}`} />
        {back !== null && <path class="backmark" d={`M${one * back} ${TOP + HIGH}l-4.5 -8h9Z`} />}
        <path class="scale" d={`M0 ${foot}H${wide}${steps.map((n) => `M${(n * one) / 10} ${foot}v${n % 5 === 0 ? 7 : 4}`).join("")}`} />
        {steps
          .filter((n) => n % 5 === 0 && n >= 10)
          .map((n) => (
            <text key={n} x={(n * one) / 10} y={foot + 22} text-anchor={n === steps.length - 1 ? "end" : "middle"}>
              {n === 10 ? "rest" : `${(n - 10) * 10} %`}
            </text>
          ))}
      </g>
    </svg>
  );
}

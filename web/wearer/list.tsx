/** All dimensions as filled lines: what is asked first, the rest folded away. A line pressed is the one to take. */
import { useState } from "preact/hooks";
import type { DimensionView } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { shown } from "../order/quantity.js";
import { word } from "../lib/state.js";
import { Figure, Second } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { Word } from "../parts/touch.js";
import { headed } from "../register/adapt.js";

/** `now` is the key of the one in hand. */
export function DimensionList({ tools, dimensions, now, onPick }: {
  readonly tools: OrderTools;
  readonly dimensions: readonly DimensionView[];
  readonly now: string | null;
  readonly onPick: (key: string) => void;
}) {
  const [all, setAll] = useState(false);
  const shows = (one: DimensionView): boolean =>
    one.need === "needed" ||
    one.need === "asked" ||
    one.state === "doubtful" ||
    one.state === "stop" ||
    one.readings.length > 0 ||
    one.key === now;
  const wanted = tools.wanted.value?.replace(/^dimensions\./, "");
  const open = all || dimensions.some((one) => one.key === wanted && !shows(one));
  const listed = open ? dimensions : dimensions.filter(shows);
  const folded = dimensions.length - dimensions.filter(shows).length;
  return (
    <>
      <ul class="lines dimensions" aria-label="Dimensions">
        {listed.map((one) => (
          <li key={one.key}>
            <DimensionLine one={one} isNow={one.key === now} onPick={() => onPick(one.key)} />
          </li>
        ))}
      </ul>
      {folded > 0 && (
        <Word expanded={open} onClick={() => setAll(!open)}>
          {open ? "Fold the others away" : `${folded} more, estimated or not needed`}
        </Word>
      )}
    </>
  );
}

function DimensionLine({ one, isNow, onPick }: { readonly one: DimensionView; readonly isNow: boolean; readonly onPick: () => void }) {
  const state = one.state === "missing" && (one.need === "not used" || one.need === "checks others") ? "good" : one.state;
  const second = one.readings.length > 1 && one.state !== "good" ? one.read.at(-1)?.main : undefined;
  return (
    <button
      type="button"
      id={fieldId(`dimensions.${one.key}`)}
      class={`line ${state}${one.value ? "" : " empty"}${isNow ? " now" : ""}`}
      aria-current={isNow ? "step" : undefined}
      onClick={onPick}
    >
      <span class="name">
        {state !== "good" && <Icon name={state} />}
        {state !== "good" && <span class="heard">{state === "estimate" ? "Estimate" : word[state]}: </span>}
        {headed(one.name)}
        {state === "estimate" && <small> est.</small>}
        {second !== undefined && (
          <small>
            {" "}
            {one.readings.length === 2 ? "2nd" : "3rd"} {second}
          </small>
        )}
      </span>
      <span class="value">
        {one.value ? <Figure quantity={shown(one.value)} /> : one.need === "needed" || one.need === "asked" ? "not taken" : "–"}
      </span>
      <span class="second">{one.value && <Second quantity={shown(one.value)} />}</span>
    </button>
  );
}

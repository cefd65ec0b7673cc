/** One measure at a time with the tape drawn where it goes, and the list of all; a line pressed is the one to take. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { DrawerMeasure, DrawerView } from "../api/types.js";
import { withUnit } from "../order/field.js";
import { shown } from "../order/quantity.js";
import type { Problem } from "../lib/quantity.js";
import { word } from "../lib/state.js";
import { Figure, Second } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { headed } from "../register/adapt.js";
import { problemOf } from "../register/asking.js";
import { Drawn } from "./drawn.js";
import type { DrawerTools } from "./tools.js";
import { Words } from "./what.js";

/** Takes a measure in hand; a function is given the one in hand. */
type Pick = (to: string | null | ((now: string | null) => string | null)) => void;

/** The second section. `picked` is the measure pressed; none takes them in turn. */
export function Measures({ tools, picked, onPick }: {
  readonly tools: DrawerTools;
  readonly picked: string | null;
  readonly onPick: Pick;
}) {
  const { view } = tools;
  const isPattern = view.of === "pattern";
  const now = picked ?? view.now;
  const measure = view.measures.find((one) => one.key === now) ?? null;
  const over = view.choices.find((choice) => choice.path === "width_of");
  return (
    <>
      {isPattern ? (
        <p class="lead netlead">
          Measure <b>net</b>: from seam line to seam line, the allowance left out. Where the paper has none printed, take it off first.
        </p>
      ) : (
        <p class="lead netlead">
          Lay the suit <b>flat and unstretched</b>; smooth it, don’t pull. From finished edge to finished edge.
        </p>
      )}
      {isPattern && over && <Words tools={tools} choice={over} />}
      <div class="two taking">
        <div class="inhand">
          <InHand tools={tools} measure={measure} isPicked={picked !== null} onPick={onPick} />
        </div>
        <div>
          <List view={view} now={measure?.key ?? null} onPick={onPick} />
        </div>
      </div>
    </>
  );
}

function InHand({ tools, measure, isPicked, onPick }: {
  readonly tools: DrawerTools;
  readonly measure: DrawerMeasure | null;
  readonly isPicked: boolean;
  readonly onPick: Pick;
}) {
  const follow = useRef(false);
  const { view } = tools;
  if (!measure) {
    return (
      <>
        <p class="small">Now</p>
        <h3>All that is asked is taken</h3>
        <p class="reading">The others sharpen it: each one more checks those that are there. Press a line to take it, or to take one again.</p>
        <Acts>
          <Word href="#cloth">Go on to the cloth</Word>
        </Acts>
        <Table view={view} measure={null} />
      </>
    );
  }
  return (
    <>
      <p class="small">{isPicked ? "In hand" : "Now"}</p>
      <h3 aria-live="polite">{headed(measure.name)}</h3>
      <p class="reading">{measure.how}</p>
      {!measure.is_asked && <p class="small">Only if you can: it checks the others.</p>}
      <Table view={view} measure={measure} />
      <Taking key={measure.key} tools={tools} measure={measure} follow={follow} onPick={onPick} />
    </>
  );
}

/** What lies on the table, with the tape. */
function Table({ view, measure }: { readonly view: DrawerView; readonly measure: DrawerMeasure | null }) {
  const tapes = view.tapes.filter((tape) => tape.measure === measure?.key);
  const sides = measure && tapes.length > 0 ? view.sides.filter((side) => tapes.some((tape) => tape.side === side.key)) : view.sides.slice(0, 1);
  if (sides.length === 0) return <p class="small noform">This kind of suit cannot be drawn yet.</p>;
  return (
    <figure class={`tablefigure${sides.length > 1 ? " both" : ""}`}>
      {sides.map((side) => (
        <div key={side.key}>
          <Drawn
            side={side}
            tapes={tapes.filter((tape) => tape.side === side.key)}
            label={
              measure
                ? `${side.name}: where the tape lies for the ${measure.name}.`
                : `${side.name} of ${view.of === "pattern" ? "a pattern" : "a suit lying flat"}.`
            }
          />
          <p class="small">{side.name}</p>
        </div>
      ))}
    </figure>
  );
}

function Taking({ tools, measure, follow, onPick }: {
  readonly tools: DrawerTools;
  readonly measure: DrawerMeasure;
  readonly follow: { current: boolean };
  readonly onPick: Pick;
}) {
  const [text, setText] = useState(bare(measure.typed));
  const [unit, setUnit] = useState<Unit>(unitOf(measure.typed) ?? tools.units);
  const [problem, setProblem] = useState<Problem | null>(
    measure.problem ? { what: measure.problem.says, next: measure.problem.next } : null,
  );
  const field = useRef<HTMLInputElement>(null);
  const busy = useRef(false);
  useLayoutEffect(() => {
    if (follow.current) field.current?.focus({ preventScroll: true });
    follow.current = false;
  }, []);
  // What another hand or "Back one" changed shows here too.
  useEffect(() => {
    setText(bare(measure.typed));
  }, [measure.typed]);
  const put = async (value: string | null): Promise<void> => {
    if (busy.current) return;
    busy.current = true;
    setProblem(null);
    follow.current = true;
    try {
      await tools.keep({ [measure.path]: value }, value === null ? `${measure.name} taken out` : words(measure, value));
      // Whoever pressed another line meanwhile keeps it.
      onPick((now) => (now === measure.key ? null : now));
    } catch (error) {
      follow.current = false;
      setProblem(problemOf(error));
      field.current?.focus();
    } finally {
      busy.current = false;
    }
  };
  const keep = (): void => {
    const value = withUnit(text, unit);
    if (value === null) {
      setProblem({ what: "Nothing is typed.", next: "Write what the tape says, as 34.5 or 13 5/8." });
      field.current?.focus();
      return;
    }
    void put(value);
  };
  const all = tools.view.measures;
  const after = all[all.findIndex((one) => one.key === measure.key) + 1];
  return (
    <div class="readings">
      <LengthField
        label={headed(measure.name)}
        text={text}
        unit={unit}
        units={["cm", "in"]}
        problem={problem}
        fieldRef={field}
        onText={setText}
        onUnit={setUnit}
        onKeep={keep}
      />
      <Acts>
        <Ticket onClick={keep}>Keep it</Ticket>
        {after && <Word onClick={() => onPick(after.key)}>Next</Word>}
        {measure.typed !== "" && <Word onClick={() => void put(null)}>Take it out</Word>}
      </Acts>
    </div>
  );
}

function words(measure: DrawerMeasure, value: string): string {
  return measure.typed === "" ? `${measure.name} ${value}` : `${measure.name} ${measure.typed} to ${value}`;
}

/** What was typed without its unit, which stands beside the field. */
export function bare(typed: string): string {
  return typed.replace(/\s*(cm|in)$/, "");
}

/** The unit it was typed in. */
export function unitOf(typed: string): Unit | null {
  const found = /(cm|in)$/.exec(typed);
  return found?.[1] === "in" ? "in" : found ? "cm" : null;
}

function List({ view, now, onPick }: { readonly view: DrawerView; readonly now: string | null; readonly onPick: (key: string) => void }) {
  return (
    <>
      <ul class="lines dimensions" aria-label="Measures">
        {view.measures.map((one) => {
          const state = one.problem ? "stop" : one.is_asked && one.typed === "" ? "missing" : "good";
          return (
            <li key={one.key}>
              <button
                type="button"
                class={`line ${state}${one.typed === "" ? " empty" : ""}${one.key === now ? " now" : ""}`}
                aria-current={one.key === now ? "step" : undefined}
                onClick={() => onPick(one.key)}
              >
                <span class="name">
                  {state !== "good" && <Icon name={state} />}
                  {state !== "good" && <span class="heard">{word[state]}: </span>}
                  {headed(one.name)}
                  {!one.is_asked && <small> if you can</small>}
                </span>
                <span class="value">{one.quantity ? <Figure quantity={shown(one.quantity)} /> : one.typed !== "" ? one.typed : one.is_asked ? "not taken" : "–"}</span>
                <span class="second">{one.quantity && <Second quantity={shown(one.quantity)} />}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
}

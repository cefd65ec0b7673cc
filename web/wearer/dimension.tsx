/**
 * The dimension in hand: its name, how the tape is laid, how to do it alone, the tape on the form, and up to three readings.
 *
 * Readings go as typed with their unit; the studio reads them and says whether they agree. Only one ticket stands at a time:
 * "Keep it" while something is typed, "Take it again" while the readings disagree, otherwise "Next".
 */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { DimensionView, FormView } from "../api/types.js";
import { AskedFigure } from "../order/asked.js";
import { FoundList } from "../order/found.js";
import type { OrderTools } from "../order/context.js";
import { withUnit } from "../order/field.js";
import { inWords } from "../order/quantity.js";
import type { Problem } from "../lib/quantity.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { headed } from "../register/adapt.js";
import { problemOf } from "../register/asking.js";
import { turnFor } from "./form.js";
import { sentence } from "./protocol.js";
import { Rings } from "./rings.js";
import { tapeSpan } from "./turning.js";

const NAMES = ["First", "Second", "Third"] as const;
/** How much of the body is shown above and below a tape, mm. */
const AROUND = 230;

/** Whether one more reading is asked for: the first of those that must be taken twice, or readings that disagree. */
export function wantsAnother(dimension: DimensionView): boolean {
  const disagree = dimension.state === "doubtful" || dimension.state === "stop";
  return dimension.readings.length === 0 || disagree || (dimension.readings.length === 1 && dimension.wants_second);
}

/**
 * `onKeeping` hears of a reading before it is sent. `dimension` is none when all is taken and none is picked. `form` is hers, or a
 * middling one while hers cannot be computed.
 */
export function DimensionInHand({ tools, dimension, form, isHers, problem, isPicked, onNext, onKeeping }: {
  readonly tools: OrderTools;
  readonly dimension: DimensionView | null;
  readonly form: FormView | null;
  readonly isHers: boolean;
  readonly problem: Problem | null;
  readonly isPicked: boolean;
  readonly onNext: () => void;
  readonly onKeeping: (key: string) => void;
}) {
  // Set when a reading was kept by hand: the field of the dimension that comes next takes the focus.
  const follow = useRef(false);
  if (!dimension) {
    return (
      <>
        <p class="small">Now</p>
        <h3>Nothing to take</h3>
        <p class="reading">All is taken. Press a line to take it again.</p>
        <Acts>
          <Word href="#cloth">Go on to the cloth</Word>
        </Acts>
        <Drawing form={form} isHers={isHers} problem={problem} dimension={null} />
      </>
    );
  }
  return (
    <>
      <p class="small">{isPicked ? "In hand" : "Now"}</p>
      <h3 aria-live="polite">{headed(dimension.name)}</h3>
      <p class="reading">{sentence(dimension.how)}</p>
      {dimension.alone !== "" && <p class="small alone">{sentence(dimension.alone)}</p>}
      {dimension.readings.length === 0 && dimension.value && (
        <p class="small estimated">
          Estimated until it is taken:{" "}
          <AskedFigure tools={tools} quantity={dimension.value} label={`why ${inWords(dimension.value)} of ${dimension.name}?`} />
        </p>
      )}
      <Drawing form={form} isHers={isHers} problem={problem} dimension={dimension} />
      <Readings key={dimension.key} tools={tools} dimension={dimension} follow={follow} onNext={onNext} onKeeping={onKeeping} />
    </>
  );
}

function Drawing({ form, isHers, problem, dimension }: {
  readonly form: FormView | null;
  readonly isHers: boolean;
  readonly problem: Problem | null;
  readonly dimension: DimensionView | null;
}) {
  const key = dimension?.key ?? null;
  const tape = form?.tapes.find((one) => one.key === key);
  const [turn, setTurn] = useState(14);
  useEffect(() => setTurn(turnFor(tape)), [key, tape !== undefined]);
  if (!form) {
    if (problem) return <Trouble problem={problem} />;
    return <p class="small noform">The form is drawn as soon as the first dimensions let it be computed.</p>;
  }
  const span = tape ? tapeSpan(tape) : null;
  const from = span ? Math.max(form.low, span.low - AROUND) : form.low;
  const to = span ? Math.min(form.high, span.high + AROUND) : form.high;
  const name = dimension ? dimension.name : "";
  const what = isHers ? "The form" : "A middling figure";
  return (
    <figure class="formfigure">
      <Rings
        form={form}
        turn={turn}
        onTurn={setTurn}
        tape={tape ? key : null}
        from={from}
        to={to}
        label={tape ? `${what} in section rings, with the tape where the ${name} is taken.` : `${what} in section rings.`}
      />
      {!tape && dimension && <figcaption class="small">This one has no place on the form that could be drawn.</figcaption>}
      {form.says !== "" && <figcaption class="small">{form.says}</figcaption>}
    </figure>
  );
}

function Readings({ tools, dimension, follow, onNext, onKeeping }: {
  readonly tools: OrderTools;
  readonly dimension: DimensionView;
  readonly follow: { current: boolean };
  readonly onNext: () => void;
  readonly onKeeping: (key: string) => void;
}) {
  const { readings, read } = dimension;
  const wearer = tools.order.value.wearer.id;
  const disagree = dimension.state === "doubtful" || dimension.state === "stop";
  const wantsMore = readings.length === 0 || (readings.length === 1 && (dimension.wants_second || disagree));
  /** The reading being typed; none while all that is wanted is there. */
  const [at, setAt] = useState<number | null>(null);
  const [text, setText] = useState("");
  const [unit, setUnit] = useState<Unit>(tools.units);
  const [trouble, setTrouble] = useState<Problem | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const active = at ?? (wantsMore ? Math.min(readings.length, 2) : null);
  const busy = useRef(false);
  /** Enter was pressed while the reading before was still being kept: this one follows it. */
  const pressed = useRef(false);
  const [, setKept] = useState(0);
  useEffect(() => {
    if (!pressed.current || busy.current) return;
    pressed.current = false;
    if (text !== "") keep();
  });
  useEffect(() => {
    if (follow.current) field.current?.focus({ preventScroll: true });
    follow.current = false;
  }, [readings.length]);
  useLayoutEffect(() => {
    if (at !== null) field.current?.focus();
  }, [at]);
  if (wearer === null) return null;

  const put = async (value: unknown): Promise<void> => {
    if (busy.current) return;
    busy.current = true;
    setTrouble(null);
    follow.current = true;
    if (value !== null) onKeeping(dimension.key);
    // Emptied before it is sent: what a fast hand types meanwhile belongs to the next reading.
    const typed = text;
    setText("");
    try {
      await tools.keep([{ document: wearer, path: `dimensions.${dimension.key}`, value }]);
      setAt(null);
    } catch (error) {
      setText((next) => (next === "" ? typed : next));
      setTrouble(problemOf(error));
      field.current?.focus();
    } finally {
      busy.current = false;
      setKept((n) => n + 1);
    }
  };
  const keep = (): void => {
    if (busy.current) {
      pressed.current = true;
      return;
    }
    if (active === null) return;
    const typed = withUnit(text, unit);
    if (typed === null) {
      setTrouble({ what: "Nothing is typed.", next: "Write what the tape says, as 73.0 or 28 3/4." });
      field.current?.focus();
      return;
    }
    const kept = [...readings.slice(0, active), typed, ...readings.slice(active + 1)];
    void put({ readings: kept });
  };
  const take = (which: number, start = ""): void => {
    setAt(which);
    setText(start);
    setTrouble(null);
  };
  const again = (): void => take(readings.length >= 3 ? 2 : readings.length);
  // What stands in the margin, or right above as how to take it, is not said twice.
  const told = tools.order.value.wearer.head.notes;
  const notes = dimension.notes.filter((note) => note.state !== "missing" && !told.some((other) => other.says === note.says));
  const slots = active === null ? readings.length : Math.max(readings.length, active + 1);
  return (
    <div class="readings">
      <div class="slots">
        {NAMES.slice(0, slots).map((name, i) => {
          const old = read[i];
          if (i === active) {
            return (
              <LengthField
                key={name}
                label={`${name} reading`}
                text={text}
                unit={unit}
                units={["cm", "in"]}
                problem={trouble}
                fieldRef={field}
                onText={setText}
                onUnit={setUnit}
                onKeep={keep}
                onLeave={() => {
                  setAt(null);
                  setText("");
                  setTrouble(null);
                }}
              />
            );
          }
          return (
            <div key={name} class="slot">
              <span class="small">{name}</span>
              <button type="button" class="edit" onClick={() => take(i, readings[i] ?? "")}>
                <span aria-hidden="true">{old?.main ?? readings[i]}</span>
                <span class="heard">
                  {old?.spoken ?? readings[i]}, change the {name.toLowerCase()} reading
                </span>
              </button>
            </div>
          );
        })}
      </div>
      {active === null && <Trouble problem={trouble} />}
      <FoundList notes={notes} />
      <Acts>
        {active !== null ? (
          <Ticket onClick={keep}>Keep it</Ticket>
        ) : disagree ? (
          <Ticket onClick={again}>Take it again</Ticket>
        ) : (
          <Ticket onClick={onNext}>Next</Ticket>
        )}
        {disagree &&
          read.map((one, i) => (
            <Word
              key={`${i} ${readings[i] ?? ""}`}
              onClick={() => void put({ readings: [readings[i]], settled: true })}
            >
              Keep {one.main}
            </Word>
          ))}
        {!disagree && active === null && readings.length > 0 && <Word onClick={again}>Take it again</Word>}
        {(active !== null || disagree) && <Word onClick={onNext}>Next</Word>}
        {readings.length > 0 && <Word onClick={() => void put(null)}>Take it out</Word>}
      </Acts>
      {dimension.definition !== "" && <p class="small">{sentence(dimension.definition)}</p>}
    </div>
  );
}

/**
 * The swatch test, step by step: fold, pull until it resists sharply, let go for a minute, read. Two directions one after
 * the other; each is kept as soon as it is read, so a test broken off loses nothing.
 *
 * **Source.** The procedure is common practice, no single source; a minute of rest after the pull is our own choice.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { PullView, Set as Change } from "../api/types.js";
import type { OrderTools } from "../order/context.js";
import { withUnit } from "../order/field.js";
import type { Problem } from "../lib/quantity.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, problemOf, useLoaded } from "../register/asking.js";
import type { Document } from "../register/asking.js";
import { numberOr, Pick, TextField } from "../register/fields.js";
import { Ruler } from "./ruler.js";

const REST_SECONDS = 60;

/** One direction of a test. */
export interface Direction {
  /** "across", "around". */
  readonly name: string;
  /** How the cloth is held for it, one sentence. */
  readonly hold: string;
  readonly pull: PullView;
}

type Step = "fold" | "pull" | "back";
const order: readonly Step[] = ["fold", "pull", "back"];
const lastOf: Readonly<Record<Step, string>> = { fold: "rest", pull: "pulled", back: "back_to" };

/** `load` is the document whose `load` says how it was pulled; none for a pair tested together. */
export function SwatchTest({ tools, name, directions, load, onDone }: {
  readonly tools: OrderTools;
  /** What is pulled: the cloth's name. */
  readonly name: string;
  readonly directions: readonly Direction[];
  readonly load: string | null;
  readonly onDone: () => void;
}) {
  const [at, setAt] = useState(0);
  const [step, setStep] = useState<Step>("fold");
  const [texts, setTexts] = useState<Readonly<Record<Step, string>>>({ fold: "10", pull: "", back: "" });
  const [unit, setUnit] = useState<Unit>("cm");
  const [problem, setProblem] = useState<Problem | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const busy = useRef(false);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
  }, [at, step]);
  const direction = directions[at];
  if (!direction) return null;

  // A pull is one value: what a label said before, or an old reading after letting go, does not stay beside the new ones.
  const changes = (withBack: boolean): readonly Change[] => {
    const [field] = direction.pull.fields;
    if (!field) return [];
    const read = order.filter((one) => one !== "back" || withBack).map((one) => [lastOf[one], withUnit(texts[one], unit)]);
    return [{ document: field.document, path: field.path.split(".").slice(0, -1).join("."), value: Object.fromEntries(read) }];
  };
  const keep = async (withBack: boolean): Promise<void> => {
    if (busy.current) return;
    busy.current = true;
    setProblem(null);
    try {
      await tools.keep(changes(withBack), `${name} pulled ${direction.name}`);
      if (at + 1 < directions.length) {
        setAt(at + 1);
        setStep("fold");
        setTexts({ fold: texts.fold, pull: "", back: "" });
      } else onDone();
    } catch (error) {
      setProblem(problemOf(error));
      field.current?.focus();
    } finally {
      busy.current = false;
    }
  };
  const on = (): void => {
    if (texts[step].trim() === "") {
      setProblem({ what: "Nothing is written.", next: "Write what the ruler or the tape says." });
      field.current?.focus();
      return;
    }
    setProblem(null);
    if (step === "fold") setStep("pull");
    else if (step === "pull") setStep("back");
    else void keep(true);
  };
  const back = (): void => {
    setProblem(null);
    if (step === "back") setStep("pull");
    else if (step === "pull") setStep("fold");
    else if (at > 0) setAt(at - 1);
    else onDone();
  };
  const says = {
    fold: `Lay ${name} flat and unstretched, folded once, ${direction.hold} Mark two points on the fold, 10 cm apart and away from the edges.`,
    pull: "Hold it at the two marks and pull steadily until it resists sharply. Read where the second mark is, before it tires you.",
    back: "Let go and lay it down. After a minute, read how far the marks are apart now.",
  } as const;
  const label = { fold: "Between the marks, at rest", pull: "Pulled to", back: "Back to" } as const;
  const number = at * order.length + order.indexOf(step) + 1;
  return (
    <div class="swatchtest" role="group" aria-label={`Testing ${name}`}>
      <p class="small">
        Step {number} of {directions.length * order.length}, {direction.name}
      </p>
      <h4 ref={heading} tabIndex={-1}>
        {{ fold: "Fold and mark", pull: "Pull", back: "Let go, wait a minute" }[step]}
      </h4>
      <p class="reading">{says[step]}</p>
      <Ruler {...(step === "fold" && { fold: 10 })} />
      {step === "back" && <Minute />}
      <LengthField
        key={`${at} ${step}`}
        label={label[step]}
        text={texts[step]}
        unit={unit}
        units={["cm", "in"]}
        problem={problem}
        fieldRef={field}
        onText={(text) => setTexts({ ...texts, [step]: text })}
        onUnit={setUnit}
        onKeep={on}
        onLeave={onDone}
      />
      {load !== null && step === "fold" && at === 0 && <Load tools={tools} document={load} />}
      <Acts>
        <Ticket onClick={on}>{step === "back" ? "Keep it" : "Next"}</Ticket>
        {step === "back" && <Word onClick={() => void keep(false)}>Keep it without</Word>}
        <Word onClick={back}>{number === 1 ? "Leave it" : "Back"}</Word>
        {number > 1 && <Word onClick={onDone}>Break off</Word>}
      </Acts>
    </div>
  );
}

/** A minute, counted when it is asked for, told at its end. */
function Minute() {
  const [left, setLeft] = useState<number | null>(null);
  useEffect(() => {
    if (left === null || left === 0) return;
    const tick = setTimeout(() => setLeft(left - 1), 1000);
    return () => clearTimeout(tick);
  }, [left]);
  return (
    <p class="minute">
      <span role="status" aria-live="polite">
        {left === 0 ? "The minute is over: read it now." : ""}
      </span>
      {left !== null && left > 0 && <span aria-hidden="true">{left} seconds</span>}
      {left === null && <Word onClick={() => setLeft(REST_SECONDS)}>Count the minute</Word>}
    </p>
  );
}

/** By hand, or with a weight or a scale on a strip: then stretches can be told apart by force. */
function Load({ tools, document }: { readonly tools: OrderTools; readonly document: string }) {
  const [how, setHow] = useState<"hand" | "weight" | "scale">("hand");
  const [strip, setStrip] = useState("5");
  const [pull, setPull] = useState("");
  const [problem, setProblem] = useState<Problem | null>(null);
  const [kept, setKept] = useState("");
  const before = useLoaded<Document<{ readonly load?: unknown }>>(`${API}/documents/${encodeURIComponent(document)}`).value?.body.load;
  // How it was pulled the last time stands there, until she says otherwise.
  useEffect(() => {
    if (typeof before !== "object" || before === null) return;
    const { strip: wide, kg, newtons } = before as { readonly strip?: unknown; readonly kg?: unknown; readonly newtons?: unknown };
    if (kg === undefined && newtons === undefined) return;
    setHow(kg === undefined ? "scale" : "weight");
    if (typeof wide === "string") setStrip(wide.replace(/\s*cm$/, ""));
    setPull(String(kg ?? newtons));
  }, [before]);
  const keep = async (value: unknown, words: string): Promise<void> => {
    setProblem(null);
    try {
      await tools.keep([{ document, path: "load", value }], words);
      setKept(words);
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <div class="load">
      <Pick
        name="How it is pulled"
        options={[
          { value: "hand", says: "By hand" },
          { value: "weight", says: "A weight hangs on it" },
          { value: "scale", says: "With a spring scale" },
        ]}
        value={how}
        onPick={(to) => {
          setHow(to);
          if (to === "hand") void keep("hand", "pulled by hand");
        }}
      />
      {how !== "hand" && (
        <>
          <p class="small">Cut a strip as wide as said below, along the direction that is pulled; pull both directions alike.</p>
          <TextField label="Width of the strip, cm" kind="number" text={strip} onText={setStrip} />
          <TextField
            label={how === "weight" ? "Weight, kg" : "Pull, newtons"}
            kind="number"
            text={pull}
            problem={problem}
            onText={setPull}
          />
          <Word
            onClick={() =>
              void keep(
                { strip: withUnit(strip, "cm"), [how === "weight" ? "kg" : "newtons"]: numberOr(pull) },
                how === "weight" ? `pulled by ${pull} kg` : `pulled with ${pull} N`,
              )
            }
          >
            Keep how it is pulled
          </Word>
        </>
      )}
      {how === "hand" && <Trouble problem={problem} />}
      {kept !== "" && <p class="small">Kept: {kept}.</p>}
    </div>
  );
}

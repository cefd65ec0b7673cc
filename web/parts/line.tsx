/**
 * Filled lines of the order sheet: name left, value in Besley, second unit small; a value that can be changed is changed in
 * place.
 */
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Failed, isAbort } from "../lib/api.js";
import type { Problem, Quantity, Reason } from "../lib/quantity.js";
import { word } from "../lib/state.js";
import type { Mark } from "../lib/state.js";
import { Figure, Second } from "./figure.js";
import { Icon } from "./icon.js";
import { LengthField } from "./length.js";
import type { Unit } from "./length.js";
import { Ask } from "./slip.js";
import { Acts, Word } from "./touch.js";

/** The list; only [Line]s inside. */
export function Lines({ children, name }: { readonly children: ComponentChildren; readonly name?: string }) {
  return (
    <dl class="lines" aria-label={name}>
      {children}
    </dl>
  );
}

/** How a line is changed. */
export interface Editing {
  readonly unit: Unit;
  readonly units?: readonly Unit[];
  readonly hint?: string;
  /** Sends the text as typed. Rejecting with [Failed] leaves the field open and shows what is wrong. */
  readonly onKeep: (text: string, unit: Unit) => Promise<void>;
}

/**
 * One line. `quantity` for figures, `says` for words ("full", "A4"); neither for a value that is missing. `hint` is the
 * small remark after the name ("2nd 70.2"). `state` puts its icon before the name; "good" is not shown, since unmarked is good.
 */
export function Line({ id, name, hint, quantity, says, empty: nothing = "not taken", state = "good", why, asked, onEdit }: {
  /** For a note that speaks of it. */
  readonly id?: string;
  readonly name: string;
  readonly hint?: string;
  readonly quantity?: Quantity;
  readonly says?: string;
  /** The word while there is neither. */
  readonly empty?: string;
  readonly state?: Mark;
  /** The number can be asked. Not together with `onEdit`: then the slip belongs to the section. */
  readonly why?: Reason | (() => Promise<Reason>);
  /** A word after the name that asks about the number; for a line that is changed in place. */
  readonly asked?: ComponentChildren;
  readonly onEdit?: Editing;
}) {
  const [open, setOpen] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useLayoutEffect(() => {
    if (wasOpen.current && !open) opener.current?.focus();
    wasOpen.current = open;
  }, [open]);
  const empty = quantity === undefined && says === undefined;
  const value = quantity ? <Figure quantity={quantity} /> : (says ?? nothing);
  return (
    <div {...(id !== undefined && { id })} class={`line ${state}${open ? " open" : ""}${empty ? " empty" : ""}`}>
      <dt>
        {state !== "good" && <Icon name={state} />}
        {state !== "good" && state !== "estimate" && <span class="heard">{word[state]}: </span>}
        {name}
        {(hint !== undefined || state === "estimate") && <small> {hint ?? word.estimate}</small>}
        {asked !== undefined && !open && <small> {asked}</small>}
      </dt>
      {open && onEdit ? (
        <dd class="editing">
          <Editor name={name} start={quantity?.main ?? says ?? ""} editing={onEdit} onClose={() => setOpen(false)} />
        </dd>
      ) : (
        <>
          <dd class="value">
            {onEdit ? (
              <button ref={opener} type="button" class="edit" onClick={() => setOpen(true)}>
                {value}
                <span class="heard">, change {name}</span>
              </button>
            ) : why ? (
              <Ask label={`why ${name}?`} why={why}>
                {value}
              </Ask>
            ) : (
              value
            )}
          </dd>
          <dd class="second">{quantity && <Second quantity={quantity} />}</dd>
        </>
      )}
    </div>
  );
}

function Editor({ name, start, editing, onClose }: {
  readonly name: string;
  readonly start: string;
  readonly editing: Editing;
  readonly onClose: () => void;
}) {
  const [text, setText] = useState(start);
  const [unit, setUnit] = useState(editing.unit);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const help = useId();
  // Before the next key can arrive: an effect after painting would lose the first digit.
  useLayoutEffect(() => {
    field.current?.focus();
    field.current?.select();
  }, []);
  const keep = async (): Promise<void> => {
    if (busy) return;
    setBusy(true);
    setProblem(null);
    try {
      await editing.onKeep(text, unit);
      onClose();
    } catch (error) {
      if (isAbort(error)) return;
      setProblem(error instanceof Failed ? error.first : { what: "This was not kept.", next: "Try again." });
      field.current?.focus();
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      <LengthField
        hideLabel
        label={name}
        text={text}
        unit={unit}
        {...(editing.units && { units: editing.units })}
        {...(editing.hint !== undefined && { hint: editing.hint })}
        problem={problem}
        fieldRef={field}
        onText={setText}
        onUnit={setUnit}
        onKeep={() => void keep()}
        onLeave={onClose}
      />
      <Acts>
        <Word onClick={() => void keep()} describedBy={help}>
          Keep it
        </Word>
        <Word onClick={onClose}>Leave it</Word>
      </Acts>
      <span id={help} class="heard">
        Enter keeps, Escape leaves it as it was
      </span>
    </>
  );
}

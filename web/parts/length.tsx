/**
 * A field for a length as people type it: "73", "73.0", "28 3/4". The text goes to the studio as it is; the studio reads
 * it, so there is one reader for pages, command line and suit files.
 */
import { useId } from "preact/hooks";
import type { Ref } from "preact";
import type { Problem } from "../lib/quantity.js";
import { Choice } from "./choice.js";
import { Trouble } from "./trouble.js";

/** Units a length can be typed in. */
export type Unit = "cm" | "in" | "mm";

const unitWords: Readonly<Record<Unit, { readonly says: string; readonly spoken: string }>> = {
  cm: { says: "cm", spoken: "centimetres" },
  in: { says: "in ⅛", spoken: "inches and eighths" },
  mm: { says: "mm", spoken: "millimetres" },
};

/**
 * `text` is what stands in the field; `onText` every change, `onKeep` Enter, `onLeave` Escape. With `units` of more than one a choice
 * stands beside it; changing the unit does not convert what is typed, it says what was meant.
 */
export function LengthField({ label, hideLabel = false, text, unit, units, hint, problem = null, fieldRef, onText, onUnit, onKeep, onLeave }: {
  readonly label: string;
  readonly hideLabel?: boolean;
  readonly text: string;
  readonly unit: Unit;
  readonly units?: readonly Unit[];
  /** A sentence below: the usual range, how to take it. */
  readonly hint?: string;
  readonly problem?: Problem | null;
  readonly fieldRef?: Ref<HTMLInputElement>;
  readonly onText: (text: string) => void;
  readonly onUnit?: (unit: Unit) => void;
  readonly onKeep?: () => void;
  readonly onLeave?: () => void;
}) {
  const id = useId();
  const choose = units && units.length > 1 && onUnit;
  return (
    <div class="length">
      <label for={id} class={hideLabel ? "heard" : "small label"}>
        {label}
        {!choose && <span class="heard">, in {unitWords[unit].spoken}</span>}
      </label>
      <div class="entry">
        <input
          id={id}
          ref={fieldRef ?? null}
          type="text"
          inputMode={unit === "in" ? "text" : "decimal"}
          autocomplete="off"
          spellcheck={false}
          value={text}
          aria-invalid={problem ? true : undefined}
          aria-describedby={`${id}-says`}
          onInput={(event) => onText(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === "Enter" && onKeep) {
              event.preventDefault();
              onKeep();
            }
            if (event.key === "Escape" && onLeave) {
              event.stopPropagation();
              onLeave();
            }
          }}
        />
        {choose ? (
          <Choice
            tight
            hideName
            name={`${label}, unit`}
            options={units.map((value) => ({ value, ...unitWords[value] }))}
            value={unit}
            onChange={onUnit}
          />
        ) : (
          <span class="small" aria-hidden="true">
            {unitWords[unit].says}
          </span>
        )}
      </div>
      <div id={`${id}-says`}>
        {hint !== undefined && <p class="small">{hint}</p>}
        <Trouble problem={problem} />
      </div>
    </div>
  );
}

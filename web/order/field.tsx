/** The studio's fields and choices as lines of the sheet: changed in place, sent as typed, waiting when nobody answers. */
import type { Choice as ChoiceOf, Field, Set as Change } from "../api/types.js";
import { Choice } from "../parts/choice.js";
import type { Unit } from "../parts/length.js";
import { Line, Lines } from "../parts/line.js";
import { Trouble } from "../parts/trouble.js";
import { Icon } from "../parts/icon.js";
import { Asked } from "./asked.js";
import { fieldId } from "./context.js";
import type { OrderTools } from "./context.js";
import { inWords, shown } from "./quantity.js";
import { Written } from "./written.js";

/** Units a bare number may be meant in; none where the field is no length of cloth or body. */
function unitsOf(field: Field, shownIn: Unit): readonly Unit[] | null {
  if (field.unit !== "cm" && field.unit !== "in" && field.unit !== "mm") return null;
  return shownIn === "mm" ? ["mm", "cm", "in"] : ["cm", "in"];
}

/** The unit a length is shown in, so that what stands in the opened field is what stood on the line. */
export function unitShown(field: Field, hers: "cm" | "in"): Unit {
  const said = field.quantity?.unit ?? field.unit;
  return said === "mm" || said === "in" || said === "cm" ? said : hers;
}

/** Text as typed with its unit: a bare number gets the unit, anything else goes as it is; nothing typed takes it out. */
export function withUnit(text: string, unit: string): string | null {
  const typed = text.trim();
  if (typed === "") return null;
  return unit !== "" && /^[\d\s.,/¼½¾⅛⅜⅝⅞-]+$/.test(typed) ? `${typed} ${unit}` : typed;
}

/** What stands on a line nobody wrote on: a design has a usual value for it, a reading has none. */
function nothingSaid(field: Field): string {
  if (field.path.startsWith("design.") || field.path.startsWith("allowances.")) return "as usual";
  return field.path.startsWith("square.") ? "not measured" : "not written";
}

/** Words for the history: `strap width 4.2 cm to 3.8 cm`. */
function changed(field: Field, value: string | null): string {
  const name = field.label.toLowerCase();
  const before = field.quantity ? inWords(field.quantity) : null;
  if (value === null) return `${name} back to usual`;
  return before === null ? `${name} ${value}` : `${name} ${before} to ${value}`;
}

/**
 * One filled line she may type over; several stand in a `div` of class `fieldlines`. Each is a list of its own, so that the
 * element the notes jump to can carry its id. `changes` builds the edit when a field is more than one value.
 */
export function FieldLine({ tools, field, changes, nothing = nothingSaid(field) }: {
  readonly tools: OrderTools;
  readonly field: Field;
  /** What stands there while nothing is written. */
  readonly nothing?: string;
  readonly changes?: (value: string | null) => readonly Change[];
}) {
  const waits = tools.waiting(field.document, field.path);
  const unit = unitShown(field, tools.units);
  const units = unitsOf(field, unit);
  const hint = [
    field.says,
    units || field.unit === "" ? "" : `In ${field.unit}.`,
    field.allowed === "" ? "" : `Allowed: ${field.allowed}.`,
    field.typed === null ? "" : "Empty it to go back to the usual.",
  ]
    .filter((part) => part !== "")
    .join(" ");
  const isUsual = field.typed === null && field.quantity !== null;
  const why = waits === undefined ? (field.quantity?.why ?? null) : null;
  const asked = why !== null && (
    <Asked tools={tools} why={why} label={field.label}>
      why?
    </Asked>
  );
  const keep = (text: string, meant: string): Promise<void> => {
    const value = withUnit(text, meant);
    const set = changes?.(value) ?? [{ document: field.document, path: field.path, value }];
    return tools.keep(set, changed(field, value));
  };
  if (!units) {
    const text = waits === undefined ? (field.typed ?? field.quantity?.main ?? "") : String(waits ?? "");
    const figure = waits === undefined && field.quantity ? inWords(field.quantity) : text;
    return (
      <div id={fieldId(field.path)} class="fieldline">
        <Lines>
          <div class={`line ${field.state}`}>
            <dt>
              {field.state !== "good" && <Icon name={field.state} />}
              {field.label}
              {(waits !== undefined || isUsual) && <small> {waits === undefined ? "usual" : "waits"}</small>}
              {asked && <small> {asked}</small>}
            </dt>
            <dd class="value">
              <Written
                label={field.label}
                value={text}
                shown={figure}
                empty={nothing}
                {...(hint !== "" && { hint })}
                onKeep={(typed) => keep(typed, field.unit)}
              />
            </dd>
            <dd class="second">{field.quantity?.second}</dd>
          </div>
        </Lines>
      </div>
    );
  }
  return (
    <div id={fieldId(field.path)} class="fieldline">
      <Lines>
        <Line
          name={field.label}
          empty={nothing}
          state={field.state}
          {...(asked && { asked })}
          {...(waits === undefined
            ? field.quantity && { quantity: shown(field.quantity), ...(isUsual && { hint: "usual" }) }
            : { says: waits === null ? "usual" : String(waits), hint: "waits" })}
          onEdit={{
            unit,
            units,
            ...(hint !== "" && { hint }),
            onKeep: keep,
          }}
        />
      </Lines>
    </div>
  );
}

/** A choice among a few words, kept at once. */
export function ChoiceWords({ tools, choice, hideName = false }: {
  readonly tools: OrderTools;
  readonly choice: ChoiceOf;
  readonly hideName?: boolean;
}) {
  const waits = tools.waiting(choice.document, choice.path);
  const value = typeof waits === "string" || typeof waits === "boolean" ? String(waits) : choice.value;
  const isYesNo = choice.options.every((option) => option.value === "true" || option.value === "false");
  const word = (of: string): string => choice.options.find((option) => option.value === of)?.label ?? of;
  const id = fieldId(choice.path);
  return (
    <div id={id} class="choiceline">
      <Choice
        name={choice.label}
        hideName={hideName}
        options={choice.options.map((option) => ({ value: option.value, says: option.label }))}
        value={value}
        {...(choice.says !== "" && { describedBy: `${id}-says` })}
        onChange={(to) => {
          if (to === value) return;
          void tools.edit(
            [{ document: choice.document, path: choice.path, value: isYesNo ? to === "true" : to }],
            `${choice.label.toLowerCase()} ${word(value)} to ${word(to)}`,
          );
        }}
      />
      {choice.says !== "" && (
        <p id={`${id}-says`} class="small">
          {choice.says}
        </p>
      )}
      <Trouble problem={tools.troubles.value.get(id) ?? null} />
    </div>
  );
}

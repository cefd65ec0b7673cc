/**
 * Lines and choices of a cloth in a suit. Two cloths stand in one section, so their elements are named by layer:
 * `shell.width`, as the notes name them.
 */
import type { Choice as ChoiceView, Field } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { unitShown, withUnit } from "../order/field.js";
import { shown } from "../order/quantity.js";
import { Figure, Second } from "../parts/figure.js";
import { Line, Lines } from "../parts/line.js";
import { Trouble } from "../parts/trouble.js";
import { numberOr, Pick, TextLine } from "../register/fields.js";

/** A length or number on a line of its own. `id` is what a note's link names. */
export function ClothField({ tools, field, id }: { readonly tools: OrderTools; readonly field: Field; readonly id: string }) {
  const waits = tools.waiting(field.document, field.path);
  const hint = [field.says, field.allowed].filter((words) => words !== "").join(" ");
  const keep = (value: unknown): Promise<void> => tools.keep([{ document: field.document, path: field.path, value }]);
  const quantity = field.quantity ? shown(field.quantity) : null;
  if (field.unit !== "cm" && field.unit !== "in" && field.unit !== "mm") {
    return (
      <Lines>
        <TextLine
          id={fieldId(id)}
          name={field.label}
          value={field.typed ?? quantity?.main ?? ""}
          {...(waits === undefined
            ? quantity && { shown: <Figure quantity={quantity} />, second: <Second quantity={quantity} /> }
            : { shown: <>{String(waits ?? "usual")} <small>waits</small></> })}
          hint={hint}
          state={field.state}
          kind="number"
          onKeep={(text) => keep(field.unit === "m" ? withUnit(text, "m") : numberOr(text))}
        />
      </Lines>
    );
  }
  const unit = unitShown(field, tools.units);
  return (
    <div id={fieldId(id)}>
      <Lines>
        <Line
          name={field.label}
          state={field.state}
          {...(waits === undefined ? quantity && { quantity } : { says: String(waits ?? "usual"), hint: "waits" })}
          onEdit={{
            unit,
            units: unit === "mm" ? ["mm", "cm", "in"] : ["cm", "in"],
            hint,
            onKeep: (text, meant) => keep(withUnit(text, meant)),
          }}
        />
      </Lines>
    </div>
  );
}

/** A choice, kept at once; eight words or more become a list to pull down. */
export function ClothChoice({ tools, choice, id }: { readonly tools: OrderTools; readonly choice: ChoiceView; readonly id: string }) {
  const waits = tools.waiting(choice.document, choice.path);
  const value = typeof waits === "string" ? waits : choice.value;
  return (
    <div id={fieldId(id)} class="choiceline">
      <Pick
        name={choice.label}
        options={choice.options.map((option) => ({ value: option.value, says: option.label }))}
        value={choice.options.some((option) => option.value === value) ? value : null}
        onPick={(to) => {
          if (to !== value) void tools.edit([{ document: choice.document, path: choice.path, value: to }]);
        }}
      />
      {choice.says !== "" && <p class="small">{choice.says}</p>}
      <Trouble problem={tools.troubles.value.get(fieldId(choice.path)) ?? null} />
    </div>
  );
}

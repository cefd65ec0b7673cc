/**
 * What a suit may have besides its shape: support, a closure, blocks of another cloth, corrections, room. Each folded to its name
 * and what is set of it, so that the section stays as short as most suits need it.
 */
import { useEffect, useState } from "preact/hooks";
import type { AmountView, BesidesView, Note, ShapeView } from "../api/types.js";
import { Asked, AskedFigure } from "../order/asked.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords, FieldLine } from "../order/field.js";
import { inWords } from "../order/quantity.js";
import { unbroken } from "../lib/quantity.js";
import { Choice } from "../parts/choice.js";
import { Icon } from "../parts/icon.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { ClosureDrawing, FigureDrawing } from "./figure.js";

/** All groups of the suit. */
export function Besides({ tools, shape }: { readonly tools: OrderTools; readonly shape: ShapeView }) {
  if (shape.besides.length === 0) return null;
  return (
    <div class="besides">
      <h3>Besides</h3>
      {shape.besides.map((group) => (
        <Group key={group.key} tools={tools} group={group} />
      ))}
    </div>
  );
}

function Group({ tools, group }: { readonly tools: OrderTools; readonly group: BesidesView }) {
  const [open, setOpen] = useState(false);
  const wanted = tools.wanted.value;
  const isWanted = [...group.choices, ...group.fields, ...group.amounts.map((amount) => amount.choice)].some((one) => one.path === wanted);
  useEffect(() => {
    if (isWanted) setOpen(true);
  }, [isWanted]);
  return (
    <details class="more group" open={open || isWanted} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="groupname">{group.name}</span>
        <span class="small">{group.in_use === "" ? "nothing set" : group.in_use}</span>
      </summary>
      {(open || isWanted) && <Body tools={tools} group={group} />}
    </details>
  );
}

function Body({ tools, group }: { readonly tools: OrderTools; readonly group: BesidesView }) {
  const kind = group.choices.find((choice) => choice.path === "design.closure.kind")?.value ?? "none";
  const place = group.choices.find((choice) => choice.path === "design.closure.place")?.value ?? "back";
  return (
    <div class="groupbody">
      <p class="reading">{group.says}</p>
      {group.amounts.length > 0 && (
        <div class="amounts">
          {group.amounts.map((amount) => (
            <Amount key={amount.key} tools={tools} amount={amount} />
          ))}
        </div>
      )}
      {group.choices.length > 0 && (
        <div class={kind === "none" ? "" : "drawnbeside"}>
          {kind !== "none" && <ClosureDrawing kind={kind} place={place} />}
          <div class="designwords">
            {group.choices.map((choice) => (
              <ChoiceWords key={choice.path} tools={tools} choice={choice} />
            ))}
          </div>
        </div>
      )}
      {group.fields.length > 0 && (
        <div class="fieldlines groupfields">
          {group.fields.map((field) => (
            <FieldLine key={field.path} tools={tools} field={field} />
          ))}
        </div>
      )}
      <Effects tools={tools} notes={group.notes} />
      {group.key === "closure" && <WayIn tools={tools} />}
      {group.key === "blocks" && group.in_use !== "" && (
        <Acts>
          <Word onClick={() => tools.goToField("contrast", "cloth")}>Choose the second cloth</Word>
        </Acts>
      )}
    </div>
  );
}

/** A correction: what is seen on the body, in words; once one is said, how much. */
function Amount({ tools, amount }: { readonly tools: OrderTools; readonly amount: AmountView }) {
  const { choice, field } = amount;
  const id = fieldId(choice.path);
  const waits = tools.waiting(choice.document, choice.path);
  const value = waits === undefined ? choice.value : String(waits ?? "");
  const word = (of: string): string => choice.options.find((option) => option.value === of)?.label ?? of;
  return (
    <div class="amount">
      <FigureDrawing of={amount.key} way={amount.way} />
      <div>
        {/* The exact amount carries the field's id once it is there. */}
        <div {...(field === null && { id })}>
          <Choice
            name={choice.label}
            options={choice.options.map((option) => ({ value: option.value, says: option.label }))}
            value={choice.options.some((option) => option.value === value) ? value : null}
            describedBy={`${id}-says`}
            onChange={(to) => {
              if (to === value) return;
              void tools.edit(
                [{ document: choice.document, path: choice.path, value: to === "" ? null : to }],
                `${choice.label.toLowerCase()} ${word(value).toLowerCase()} to ${word(to).toLowerCase()}`,
              );
            }}
          />
        </div>
        <p id={`${id}-says`} class="small">
          {choice.says}
        </p>
        {field !== null && (
          <div class="fieldlines">
            <FieldLine tools={tools} field={{ ...field, label: `${field.label} by` }} />
          </div>
        )}
        <Trouble problem={tools.troubles.value.get(id) ?? null} />
      </div>
    </div>
  );
}

/** What it does to this suit, told where it is set; what stands in the margin is not said twice. */
function Effects({ tools, notes }: { readonly tools: OrderTools; readonly notes: readonly Note[] }) {
  const told = tools.order.value.shape.head.notes;
  const own = notes.filter((note) => !told.some((other) => other.says === note.says));
  if (own.length === 0) return null;
  return (
    <ul class="found">
      {own.map((note) => (
        <li key={`${note.why ?? ""} ${note.says}`} class={`inline ${note.state}`}>
          <Icon name={note.state} />
          <span>
            {unbroken(`${note.says} ${note.next}`)}{" "}
            {note.why !== null && (
              <Asked tools={tools} why={note.why} label={note.says}>
                Why?
              </Asked>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}

/** The openings as they are with it: what each must pass, and the share of what it can open to. */
function WayIn({ tools }: { readonly tools: OrderTools }) {
  const { way_in: openings } = tools.order.value.wear;
  if (openings.length === 0) return null;
  return (
    <>
      <h4>The way in, as it is now</h4>
      <ul class="found">
        {openings.map((one) => (
          <li key={one.opening} class={`inline ${one.state}`}>
            <Icon name={one.state} />
            <span>
              {unbroken(`${one.opening} ${one.says}.`)} It needs{" "}
              <AskedFigure tools={tools} quantity={one.share} label={`why ${inWords(one.share)} at the ${one.opening.toLowerCase()}?`} /> of what it
              can stretch.
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

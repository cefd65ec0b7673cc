/** Whom the suit is for: chosen by name or added; and what is known of the whole body: age, mass, how things were taken. */
import { useState } from "preact/hooks";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords } from "../order/field.js";
import { Lines } from "../parts/line.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { headed } from "../register/adapt.js";
import { numberOr, Pick, TextLine } from "../register/fields.js";
import { NewWearer } from "../register/new.js";

/** For a suit without a wearer, or to choose somebody else. */
export function ChooseWearer({ tools, onLeave }: { readonly tools: OrderTools; readonly onLeave?: () => void }) {
  const { wearer, suit } = tools.order.value;
  const [adding, setAdding] = useState(false);
  const choose = async (id: string): Promise<void> => {
    const name = tools.order.value.wearer.choose.find((one) => one.id === id)?.name;
    if (await tools.edit([{ document: suit.id, path: "wearer", value: id }], name === undefined ? "" : `for ${name}`)) onLeave?.();
  };
  return (
    <div id={fieldId("wearer")} class="choosing">
      {wearer.id === null && <p class="lead">Nobody is chosen yet.</p>}
      {wearer.choose.length > 0 && (
        <Pick
          name="For"
          options={wearer.choose.map((one) => ({ value: one.id, says: one.name }))}
          value={wearer.id}
          onPick={(id) => void choose(id)}
        />
      )}
      <Trouble problem={tools.troubles.value.get(fieldId("wearer")) ?? null} />
      {adding ? (
        <NewWearer onLeave={() => setAdding(false)} onMade={choose} />
      ) : (
        <Acts>
          {wearer.id === null ? (
            <Ticket onClick={() => setAdding(true)}>Add a wearer</Ticket>
          ) : (
            <Word onClick={() => setAdding(true)}>Add a wearer</Word>
          )}
          {onLeave && <Word onClick={onLeave}>Leave it</Word>}
        </Acts>
      )}
    </div>
  );
}

/** Name, age, mass and how she was taken, on a folded line. */
export function Who({ tools }: { readonly tools: OrderTools }) {
  const { wearer } = tools.order.value;
  const [choosing, setChoosing] = useState(false);
  const [open, setOpen] = useState(false);
  const wanted = tools.wanted.value;
  const isWanted = wanted === "age" || wanted === "mass_kg" || wearer.choices.some((choice) => choice.path === wanted);
  const id = wearer.id;
  if (id === null || choosing) return <ChooseWearer tools={tools} onLeave={() => setChoosing(false)} />;
  const about = [
    ...wearer.choices.slice(0, 1).map((choice) => choice.options.find((option) => option.value === choice.value)?.label ?? ""),
    wearer.age === "" ? "" : `${wearer.age} years`,
    wearer.mass === "" ? "" : `${wearer.mass} kg`,
  ].filter((word) => word !== "");
  const isOpen = open || isWanted;
  return (
    <div class="who">
      <h3>{wearer.name}</h3>
      {about.length > 0 && <span class="small">{headed(about.join(", "))}</span>}
      <span class="whoacts">
        <Word expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? "Fold it away" : "Age, mass, how taken"}
        </Word>
        <Word onClick={() => setChoosing(true)}>Somebody else</Word>
        <Word href={`/wearers/${encodeURIComponent(id)}`}>
          {wearer.name}
          ’s own page
        </Word>
      </span>
      {isOpen && (
        <div class="whole">
          {wearer.choices.map((choice) => (
            <ChoiceWords key={choice.path} tools={tools} choice={choice} />
          ))}
          <Lines>
            <TextLine
              id={fieldId("age")}
              name="Age"
              value={wearer.age}
              kind="number"
              hint="Years. Needed for a child."
              empty="not said"
              onKeep={(text) => tools.keep([{ document: id, path: "age", value: numberOr(text) }])}
            />
            <TextLine
              id={fieldId("mass_kg")}
              name="Body mass"
              value={wearer.mass}
              kind="number"
              hint="Kilograms. Sharpens estimates and the search for slips of the tape; leave it out if she would rather not."
              empty="not said"
              onKeep={(text) => tools.keep([{ document: id, path: "mass_kg", value: numberOr(text) }])}
            />
          </Lines>
        </div>
      )}
    </div>
  );
}

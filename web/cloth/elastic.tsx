/** The elastic of the edges: one from stock with its own readings, or only a kind. */
import { useState } from "preact/hooks";
import { FoundList } from "../order/found.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { Pick } from "../register/fields.js";
import { NewElastic } from "../register/new.js";
import { ClothChoice, ClothField } from "./field.js";

/** Value of the pick that stands for "no elastic from stock, only a kind". */
const KIND = "";

/** Below the cloths. */
export function ElasticBlock({ tools }: { readonly tools: OrderTools }) {
  const { cloth, suit } = tools.order.value;
  const { elastic } = cloth;
  // What stands in the margin is not said twice.
  const notes = elastic.notes.filter((note) => !cloth.head.notes.some((other) => other.says === note.says));
  const [adding, setAdding] = useState(false);
  const choose = async (id: string): Promise<void> => {
    const name = elastic.choose.find((one) => one.id === id)?.name;
    await tools.edit(
      [{ document: suit.id, path: "elastic", value: id === KIND ? null : id }],
      id === KIND ? "elastic: a kind" : name === undefined ? "" : `elastic: ${name}`,
    );
    setAdding(false);
  };
  return (
    <div id={fieldId("elastic")} class="layer elastic">
      <h3>Elastic</h3>
      {elastic.about !== "" && <p class="reading">{elastic.about}</p>}
      {elastic.choose.length > 0 && (
        <Pick
          name="Which"
          options={[{ value: KIND, says: "A kind" }, ...elastic.choose.map((one) => ({ value: one.id, says: one.name }))]}
          value={elastic.id ?? KIND}
          onPick={(id) => void choose(id)}
        />
      )}
      <Trouble problem={tools.troubles.value.get(fieldId("elastic")) ?? null} />
      {elastic.choices.map((choice) => (
        <ClothChoice key={choice.path} tools={tools} choice={choice} id={choice.path} />
      ))}
      <div class="fieldlines">
        {elastic.fields.map((field) => (
          <ClothField key={field.path} tools={tools} field={field} id={field.path} />
        ))}
      </div>
      <FoundList notes={notes} />
      {adding ? (
        <NewElastic onLeave={() => setAdding(false)} onMade={choose} />
      ) : (
        <Acts>
          <Word onClick={() => setAdding(true)}>Add an elastic</Word>
          {elastic.id !== null && (
            <Word href={`/elastics/${encodeURIComponent(elastic.id)}`}>
              Its own page<span class="heard">: the elastic</span>
            </Word>
          )}
        </Acts>
      )}
    </div>
  );
}

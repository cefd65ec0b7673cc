/** Other sizes of the envelope with their widths: the sheet then says which comes nearest. */
import { useState } from "preact/hooks";
import { Line, Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { useTrying } from "../register/asking.js";
import { TextField } from "../register/fields.js";
import { headed } from "../register/adapt.js";
import { Trouble } from "../parts/trouble.js";
import { withUnit } from "../order/field.js";
import { shown } from "../order/quantity.js";
import type { DrawerTools } from "./tools.js";

/** The section of sizes. */
export function Sizes({ tools }: { readonly tools: DrawerTools }) {
  const { view, keep } = tools;
  const [adding, setAdding] = useState(false);
  const [name, setName] = useState("");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      const used = new Set(view.sizes.map((size) => size.key));
      let n = view.sizes.length + 1;
      while (used.has(`s${n}`)) n += 1;
      await keep({ [`sizes.s${n}`]: { name: name.trim(), widths: {} } }, `size ${name.trim()} added`);
      setName("");
      setAdding(false);
    });
  return (
    <>
      <p class="reading">If the envelope has more sizes, measure their widths too: another one may need less change, or none.</p>
      {view.sizes.map((size) => (
        <div key={size.key} class="size">
          <h3>Size {size.name}</h3>
          <Lines name={`Size ${size.name}`}>
            {size.measures.filter((one) => one.is_asked || one.typed !== "").map((one) => (
              <Line
                key={one.key}
                name={headed(one.name)}
                {...(one.quantity ? { quantity: shown(one.quantity) } : one.typed !== "" ? { says: one.typed } : {})}
                onEdit={{
                  unit: tools.units,
                  units: ["cm", "in"],
                  hint: "Empty takes it out.",
                  onKeep: (text, unit) => keep({ [one.path]: withUnit(text, unit) }, `size ${size.name}, ${one.name} ${withUnit(text, unit) ?? "taken out"}`),
                }}
              />
            ))}
          </Lines>
          <Acts>
            <Word onClick={() => void trying.run(() => keep({ [`sizes.${size.key}`]: null }, `size ${size.name} taken out`))}>
              Take size {size.name} out
            </Word>
          </Acts>
        </div>
      ))}
      <Trouble problem={trying.problem} />
      {adding ? (
        <div class="startform">
          <TextField label="What the envelope calls it" text={name} onText={setName} onKeep={add} onLeave={() => setAdding(false)} />
          <Acts>
            <Word onClick={add}>Keep it</Word>
            <Word onClick={() => setAdding(false)}>Leave it</Word>
          </Acts>
        </div>
      ) : (
        <Acts>
          <Word onClick={() => setAdding(true)}>Add a size</Word>
        </Acts>
      )}
    </>
  );
}

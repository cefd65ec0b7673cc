/** The cloth it is made of and the cloth to sew: a swatch of the workroom, or a stretch typed by hand. */
import type { DrawerCloth } from "../api/types.js";
import { Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "../register/asking.js";
import { Pick, TextLine } from "../register/fields.js";
import type { DrawerTools } from "./tools.js";

/** The third section. */
export function Cloths({ tools }: { readonly tools: DrawerTools }) {
  const { view } = tools;
  if (!view.old) return <Cloth tools={tools} cloth={view.new} name="What it will be sewn of" />;
  return (
    <div class="two">
      <div>
        <h3>The suit as it is</h3>
        <Cloth tools={tools} cloth={view.old} name="What it is made of" />
      </div>
      <div>
        <h3>The new one</h3>
        <Cloth tools={tools} cloth={view.new} name="What it will be sewn of" />
      </div>
    </div>
  );
}

const TYPED = "typed";

function Cloth({ tools, cloth, name }: { readonly tools: DrawerTools; readonly cloth: DrawerCloth; readonly name: string }) {
  const { view, keep } = tools;
  const trying = useTrying();
  const { path } = cloth;
  const choose = (value: string): void =>
    void trying.run(() =>
      value === TYPED
        ? keep({ [`${path}.from`]: TYPED }, "stretch typed by hand")
        : keep({ [`${path}.from`]: "swatch", [`${path}.swatch`]: value }, `of ${view.cloths.find((one) => one.id === value)?.name ?? "a swatch"}`),
    );
  const isTyped = cloth.from === TYPED;
  return (
    <div class="clothof">
      <Pick
        name={name}
        options={[...view.cloths.map((one) => ({ value: one.id, says: one.name })), { value: TYPED, says: "Not in the workroom" }]}
        value={isTyped ? TYPED : cloth.swatch}
        onPick={choose}
      />
      <Trouble problem={trying.problem} />
      {isTyped && (
        <Lines>
          <Stretch tools={tools} at={`${path}.around`} name="Stretch around" value={cloth.around} />
          <Stretch tools={tools} at={`${path}.lengthwise`} name="Stretch lengthwise" value={cloth.lengthwise} />
        </Lines>
      )}
      {isTyped && <p class="small">Fold it, mark 10 cm at rest, pull by hand until it resists. 10 to 18 cm is 80 %. Around is the way it lies round the body.</p>}
      {cloth.says !== "" && <p class="reading">{cloth.says}</p>}
      {!isTyped && cloth.swatch !== null && (
        <Acts>
          <Word href={`/cloths/${encodeURIComponent(cloth.swatch)}`}>Its swatch</Word>
        </Acts>
      )}
    </div>
  );
}

function Stretch({ tools, at, name, value }: { readonly tools: DrawerTools; readonly at: string; readonly name: string; readonly value: string }) {
  return (
    <TextLine
      name={name}
      value={value.replace(/\s*%$/, "")}
      kind="number"
      empty="not typed"
      {...(value !== "" && { shown: <>{value.replace(/\s*%$/, "")} <small>%</small></> })}
      hint="In per cent."
      onKeep={(text) => tools.keep({ [at]: text === "" ? null : `${text.replace(/\s*%$/, "")} %` }, text === "" ? `${name.toLowerCase()} taken out` : `${name.toLowerCase()} ${text} %`)}
    />
  );
}

/** What it is and whom it fits: the wearer, and the shapes of the suit as they look. */
import { useState } from "preact/hooks";
import type { Choice as ChoiceView } from "../api/types.js";
import { Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "../register/asking.js";
import { Pick, TextLine } from "../register/fields.js";
import { NewWearer } from "../register/new.js";
import type { DrawerTools } from "./tools.js";

/** The first section. */
export function What({ tools }: { readonly tools: DrawerTools }) {
  const { view, keep } = tools;
  const isPattern = view.of === "pattern";
  const [adding, setAdding] = useState(false);
  const trying = useTrying();
  const wear = (id: string): void =>
    void trying.run(() => keep({ wearer: id }, `${isPattern ? "for" : "fits"} ${view.wearers.find((one) => one.id === id)?.name ?? "her"}`));
  const choices = view.choices.filter((choice) => choice.path !== "width_of");
  return (
    <>
      <div class="choices">
        {view.wearers.length > 0 && (
          <Pick
            name={isPattern ? "To be sewn for" : "Whom it fits"}
            options={view.wearers.map((one) => ({ value: one.id, says: one.name }))}
            value={view.wearer}
            onPick={wear}
          />
        )}
        {choices.filter((choice) => choice.options.length > 1).map((choice) => (
          <Words key={choice.path} tools={tools} choice={choice} />
        ))}
      </div>
      <Trouble problem={trying.problem} />
      {adding ? (
        <NewWearer
          onLeave={() => setAdding(false)}
          onMade={async (id) => {
            await keep({ wearer: id });
            setAdding(false);
          }}
        />
      ) : (
        <Acts>
          <Word onClick={() => setAdding(true)}>Add a wearer</Word>
          {view.wearer !== null && <Word href={`/wearers/${encodeURIComponent(view.wearer)}`}>Her own page</Word>}
        </Acts>
      )}
      {isPattern && (
        <Lines>
          <TextLine
            name="Size measured"
            value={view.size}
            hint="As the envelope calls it."
            onKeep={(text) => keep({ size: text === "" ? null : text }, text === "" ? "size taken out" : `size ${text}`)}
          />
          <TextLine
            name="Stretch the envelope asks"
            value={view.stretch_asked}
            kind="number"
            hint="In per cent. A stretch ruler on the envelope: how far 10 cm must reach, less 10 cm, times ten."
            {...(view.stretch_asked !== "" && { shown: <>{view.stretch_asked.replace(/\s*%$/, "")} <small>%</small></> })}
            onKeep={(text) => keep({ stretch_asked: text === "" ? null : text }, text === "" ? "asked stretch taken out" : `asked stretch ${text}`)}
          />
        </Lines>
      )}
    </>
  );
}

/** A choice among words; the sentence of the history is in its own words. */
export function Words({ tools, choice }: { readonly tools: DrawerTools; readonly choice: ChoiceView }) {
  const trying = useTrying();
  return (
    <div>
      <Pick
        name={choice.label}
        options={choice.options.map((option) => ({ value: option.value, says: option.label }))}
        value={choice.value}
        onPick={(value) => {
          const word = choice.options.find((option) => option.value === value)?.label ?? value;
          void trying.run(() => tools.keep({ [choice.path]: value }, `${choice.label.toLowerCase()} ${word.toLowerCase()}`));
        }}
      />
      <Trouble problem={trying.problem} />
    </div>
  );
}

/** What else is known of a cloth in the hand: the wet test, its words and numbers, and a photo of the swatch. */
import { useEffect, useState } from "preact/hooks";
import type { SwatchView } from "../api/types.js";
import { FoundList } from "../order/found.js";
import type { OrderTools } from "../order/context.js";
import { remove } from "../lib/api.js";
import { Icon } from "../parts/icon.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, sendBytes, useTrying } from "../register/asking.js";
import { TakeFile } from "../register/fields.js";
import { ClothChoice, ClothField } from "./field.js";

/** Photos larger than this are refused by the studio; told before they are sent. */
const MOST_BYTES = 8 * 1024 * 1024;

/** Below the pulls of a layer. */
export function Layer({ tools, swatch, layer }: { readonly tools: OrderTools; readonly swatch: SwatchView; readonly layer: string }) {
  const [open, setOpen] = useState(false);
  const wanted = tools.wanted.value;
  const isWanted = wanted !== null && wanted.startsWith(`${layer}.`) && wanted !== `${layer}.wet`;
  // What stands in the margin is not said twice.
  const told = tools.order.value.cloth.head.notes;
  const notes = swatch.notes.filter((note) => !told.some((other) => other.says === note.says));
  useEffect(() => {
    if (isWanted) setOpen(true);
  }, [isWanted]);
  return (
    <>
      <FoundList notes={notes} />
      <Wet tools={tools} swatch={swatch} layer={layer} />
      <details class="more" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          Readings, width, stock and photo<span class="heard"> of {swatch.name}</span>
        </summary>
        {open && (
          <>
            <div class="two">
              <Readings tools={tools} name="Across" fields={swatch.across.fields} layer={layer} />
              <Readings tools={tools} name="Along" fields={swatch.along.fields} layer={layer} />
            </div>
            {swatch.choices.map((choice) => (
              <ClothChoice key={choice.path} tools={tools} choice={choice} id={`${layer}.${choice.path}`} />
            ))}
            <div class="fieldlines">
              {swatch.fields.map((field) => (
                <ClothField key={field.path} tools={tools} field={field} id={`${layer}.${field.path}`} />
              ))}
            </div>
            <Photo
              document={swatch.id}
              photo={swatch.look.photo}
              name={swatch.name}
              onPhoto={(id) => tools.keep([{ document: swatch.id, path: "photo", value: id }], id === null ? "photo taken out" : "photo of the swatch")}
            />
          </>
        )}
      </details>
    </>
  );
}

function Readings({ tools, name, fields, layer }: {
  readonly tools: OrderTools;
  readonly name: string;
  readonly fields: SwatchView["fields"];
  readonly layer: string;
}) {
  return (
    <div>
      <p class="small">{name}</p>
      <div class="fieldlines">
        {fields.map((field) => (
          <ClothField key={field.path} tools={tools} field={field} id={`${layer}.${field.path}`} />
        ))}
      </div>
    </div>
  );
}

/** Wet, held at worn stretch, over print: does it show? */
function Wet({ tools, swatch, layer }: { readonly tools: OrderTools; readonly swatch: SwatchView; readonly layer: string }) {
  const { wet } = swatch;
  const [open, setOpen] = useState(false);
  const isOpen = open || tools.wanted.value === `${layer}.wet`;
  const said = wet.choice.options.find((option) => option.value === wet.verdict)?.label;
  const state = wet.verdict === "" ? "missing" : wet.verdict === "opaque" ? "good" : wet.verdict === "sheer" ? "stop" : "doubtful";
  return (
    <div class="wet">
      <div class="folded">
        <h4>Wet, at worn stretch</h4>
        <span class={`state ${state}`}>
          <Icon name={state} />
          <span>{said ?? "not tested"}</span>
        </span>
        <Word expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? "Fold it away" : wet.verdict === "" ? "How to test it" : "Test it again"}
          <span class="heard"> when wet: {swatch.name}</span>
        </Word>
      </div>
      {isOpen && (
        <>
          <p class="reading">{wet.how}</p>
          <ClothChoice tools={tools} choice={wet.choice} id={`${layer}.wet`} />
        </>
      )}
    </div>
  );
}

/** Her own photo of the swatch, shown instead of the drawn weave. */
export function Photo({ document, photo, name, onPhoto }: {
  readonly document: string;
  readonly photo: string | null;
  readonly name: string;
  /** Writes the photo's id into the cloth. */
  readonly onPhoto: (id: string | null) => Promise<void>;
}) {
  const trying = useTrying();
  const [tooLarge, setTooLarge] = useState(false);
  const send = (file: File): void => {
    setTooLarge(file.size > MOST_BYTES);
    if (file.size > MOST_BYTES) return;
    void trying.run(async () => {
      const sent = await sendBytes<{ readonly id: string }>(`${API}/photos?owner=${encodeURIComponent(document)}`, file, file.type);
      await onPhoto(sent.id);
    });
  };
  return (
    <div class="photo">
      <Acts>
        <TakeFile says={photo === null ? `Photo of ${name}` : "Another photo"} accept="image/jpeg,image/png,image/webp" onFile={send} />
        {photo !== null && (
          <Word
            onClick={() =>
              void trying.run(async () => {
                await onPhoto(null);
                await remove(`${API}/photos/${encodeURIComponent(photo)}`);
              })
            }
          >
            Take the photo out
          </Word>
        )}
      </Acts>
      <Trouble
        problem={tooLarge ? { what: "The photo is larger than 8 MB.", next: "Take it smaller, or crop it to the swatch." } : trying.problem}
      />
    </div>
  );
}

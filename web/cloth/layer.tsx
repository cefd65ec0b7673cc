/** What else is known of a cloth in the hand: the wet test, its words and numbers, and a photo of the swatch. */
import { useEffect, useState } from "preact/hooks";
import type { SwatchView } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords, FieldLine } from "../order/field.js";
import { remove } from "../lib/api.js";
import { Icon } from "../parts/icon.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, sendBytes, useTrying } from "../register/asking.js";
import { TakeFile } from "../register/fields.js";

/** Photos larger than this are refused by the studio; told before they are sent. */
const MOST_BYTES = 8 * 1024 * 1024;

/** Below the pulls of a layer. */
export function Layer({ tools, swatch }: { readonly tools: OrderTools; readonly swatch: SwatchView }) {
  const [open, setOpen] = useState(false);
  const wanted = tools.wanted.value;
  const fields = [...swatch.across.fields, ...swatch.along.fields, ...swatch.fields];
  const isWanted = wanted !== null && [...fields, ...swatch.choices].some((one) => one.path === wanted);
  useEffect(() => {
    if (isWanted) setOpen(true);
  }, [isWanted]);
  return (
    <>
      {swatch.notes.length > 0 && (
        <ul class="found">
          {swatch.notes.map((note) => (
            <li key={note.says} class={`inline ${note.state}`}>
              <Icon name={note.state} />
              <span>
                {note.says} {note.next}
              </span>
            </li>
          ))}
        </ul>
      )}
      <Wet tools={tools} swatch={swatch} />
      <details class="more" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          Readings, width, stock and photo<span class="heard"> of {swatch.name}</span>
        </summary>
        {open && (
          <>
            <div class="two">
              <Readings tools={tools} name="Across" fields={swatch.across.fields} />
              <Readings tools={tools} name="Along" fields={swatch.along.fields} />
            </div>
            {swatch.choices.map((choice) => (
              <ChoiceWords key={choice.path} tools={tools} choice={choice} />
            ))}
            <div class="fieldlines">
              {swatch.fields.map((field) => (
                <FieldLine key={field.path} tools={tools} field={field} />
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

function Readings({ tools, name, fields }: { readonly tools: OrderTools; readonly name: string; readonly fields: SwatchView["fields"] }) {
  return (
    <div>
      <p class="small">{name}</p>
      <div class="fieldlines">
        {fields.map((field) => (
          <FieldLine key={field.path} tools={tools} field={field} />
        ))}
      </div>
    </div>
  );
}

/** Wet, held at worn stretch, over print: does it show? */
function Wet({ tools, swatch }: { readonly tools: OrderTools; readonly swatch: SwatchView }) {
  const { wet } = swatch;
  const [open, setOpen] = useState(false);
  const isOpen = open || tools.wanted.value === wet.choice.path;
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
          <ChoiceWords tools={tools} choice={wet.choice} />
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
    <div id={fieldId("photo")} class="photo">
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

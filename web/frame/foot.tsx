/** The foot of a page: day or night, the keys, and making the tape true. What belongs to this screen and to no suit. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { addKeys, keys } from "../lib/keys.js";
import { CARD_WIDTH_MM, PLAIN_MM, light, numberKeys, pixelsPerMm } from "../lib/store.js";
import { Choice } from "../parts/choice.js";
import { Acts, Word } from "../parts/touch.js";

/** Three words; two of them open a slip over the page. */
export function Foot() {
  const list = useRef<HTMLDialogElement>(null);
  const card = useRef<HTMLDialogElement>(null);
  useEffect(
    () =>
      addKeys([
        {
          key: "?",
          says: "This list",
          act: () => (list.current?.open ? list.current.close() : list.current?.showModal()),
        },
      ]),
    [],
  );
  return (
    <footer class="foot">
      <Choice
        name="Light"
        options={[
          { value: "system", says: "As this machine" },
          { value: "day", says: "Day" },
          { value: "night", says: "Night" },
        ]}
        value={light.value}
        onChange={(value) => {
          light.value = value;
        }}
      />
      <Acts>
        <Word onClick={() => list.current?.showModal()}>Keys</Word>
        <Word onClick={() => card.current?.showModal()}>Make the tape true</Word>
      </Acts>
      <dialog ref={list} class="over" aria-labelledby="keys-name">
        <KeyList onClose={() => list.current?.close()} />
      </dialog>
      <dialog ref={card} class="over" aria-labelledby="card-name">
        <Card onClose={() => card.current?.close()} />
      </dialog>
    </footer>
  );
}

function KeyList({ onClose }: { readonly onClose: () => void }) {
  return (
    <>
      <h2 id="keys-name">Keys</h2>
      <dl class="keys">
        {keys.value.map((key) => (
          <div key={key.key}>
            <dt>
              <kbd>{key.key}</kbd>
            </dt>
            <dd>{key.says}</dd>
          </div>
        ))}
        <div>
          <dt>
            <kbd>Esc</kbd>
          </dt>
          <dd>Leave a field as it was, put a slip away</dd>
        </div>
      </dl>
      <Choice
        name="Number keys and ?"
        options={[
          { value: "on", says: "On" },
          { value: "off", says: "Off" },
        ]}
        value={numberKeys.value ? "on" : "off"}
        onChange={(value) => {
          numberKeys.value = value === "on";
        }}
      />
      <Acts>
        <Word onClick={onClose}>Put it away</Word>
      </Acts>
    </>
  );
}

/** Hold a bank card against the screen and draw the outline to its width: from then on the tape's centimetres are true. */
function Card({ onClose }: { readonly onClose: () => void }) {
  const id = useId();
  const [mm, setMm] = useState(pixelsPerMm.value);
  useEffect(() => setMm(pixelsPerMm.value), [pixelsPerMm.value]);
  return (
    <>
      <h2 id="card-name">Make the tape true</h2>
      <p class="reading">
        Hold a bank card against the screen and set the outline to its width. All such cards are 85.6 mm wide. Do it again
        after a change of zoom.
      </p>
      <div class="card" style={{ width: `${mm * CARD_WIDTH_MM}px` }} aria-hidden="true" />
      <label for={id} class="small label">
        Width of the outline
      </label>
      <input
        id={id}
        type="range"
        min={PLAIN_MM * 0.5}
        max={PLAIN_MM * 2}
        step={0.005}
        value={mm}
        aria-valuetext={`${Math.round(mm * CARD_WIDTH_MM)} pixels`}
        onInput={(event) => setMm(event.currentTarget.valueAsNumber)}
      />
      <Acts>
        <Word
          onClick={() => {
            pixelsPerMm.value = mm;
            onClose();
          }}
        >
          Keep it
        </Word>
        <Word
          onClick={() => {
            setMm(pixelsPerMm.value);
            onClose();
          }}
        >
          Leave it
        </Word>
        <Word onClick={() => setMm(PLAIN_MM)}>As it came</Word>
      </Acts>
    </>
  );
}

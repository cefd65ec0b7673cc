/** The foot of a page: day or night, the keys, and making the tape true. What belongs to this screen and to no suit. */
import { useEffect, useRef, useState } from "preact/hooks";
import { Calibrate } from "../cloth/calibrate.js";
import { addKeys, keys } from "../lib/keys.js";
import { setLight, setNumberKeys } from "../lib/settings.js";
import { light, numberKeys } from "../lib/store.js";
import { Choice } from "../parts/choice.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Word } from "../parts/touch.js";
import { useTrying } from "../register/asking.js";

/** Three words; two of them open a slip over the page. */
export function Foot() {
  const list = useRef<HTMLDialogElement>(null);
  const card = useRef<HTMLDialogElement>(null);
  const [isMeasuring, setMeasuring] = useState(false);
  const trying = useTrying();
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
        onChange={(value) => void trying.run(() => setLight(value))}
      />
      <Trouble problem={trying.problem} />
      <Acts>
        <Word onClick={() => list.current?.showModal()}>Keys</Word>
        <Word
          onClick={() => {
            setMeasuring(true);
            card.current?.showModal();
          }}
        >
          Make the tape true
        </Word>
      </Acts>
      <dialog ref={list} class="over" aria-labelledby="keys-name">
        <KeyList onClose={() => list.current?.close()} />
      </dialog>
      <dialog ref={card} class="over" aria-labelledby="card-name" onClose={() => setMeasuring(false)}>
        <h2 id="card-name">Make the tape true</h2>
        {isMeasuring && <Calibrate onDone={() => card.current?.close()} />}
      </dialog>
    </footer>
  );
}

function KeyList({ onClose }: { readonly onClose: () => void }) {
  const trying = useTrying();
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
        onChange={(value) => void trying.run(() => setNumberKeys(value === "on"))}
      />
      <Trouble problem={trying.problem} />
      <Acts>
        <Word onClick={onClose}>Put it away</Word>
      </Acts>
    </>
  );
}

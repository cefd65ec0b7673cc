/** The foot of a page: day or night, the keys, and making the tape true. What belongs to this screen and to no suit. */
import { useEffect, useRef, useState } from "preact/hooks";
import { Calibrate } from "../cloth/calibrate.js";
import { addKeys, keys } from "../lib/keys.js";
import { Acts, Word } from "../parts/touch.js";
import { KeysChoice, LightChoice } from "./screen.js";

/** Three words; two of them open a slip over the page. */
export function Foot() {
  const list = useRef<HTMLDialogElement>(null);
  const card = useRef<HTMLDialogElement>(null);
  const [isMeasuring, setMeasuring] = useState(false);
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
      <LightChoice />
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
      <KeysChoice />
      <Acts>
        <Word onClick={onClose}>Put it away</Word>
      </Acts>
    </>
  );
}

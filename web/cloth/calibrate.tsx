/**
 * Making centimetres on the screen true: lay a bank card on it and set the outline to its size. The tape of the page, the
 * ruler of the swatch test and every drawing at true scale use the same.
 *
 * **Source.** ISO/IEC 7810, ID-1: 85.60 x 53.98 mm, from memory.
 */
import { useId, useState } from "preact/hooks";
import { setPixelsPerMm } from "../lib/settings.js";
import { CARD_WIDTH_MM, PLAIN_MM, pixelsPerMm } from "../lib/store.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "../register/asking.js";

const CARD_HEIGHT_MM = 53.98;
/** A step of the slider and of the arrow keys, CSS pixels a millimetre: less than half a pixel over the card. */
const STEP = 0.005;

/** Whether a card was ever held against this screen. */
export function isTrue(): boolean {
  return pixelsPerMm.value !== PLAIN_MM;
}

/** The outline with its slider. `onDone` when it is kept or left. */
export function Calibrate({ onDone }: { readonly onDone?: () => void }) {
  const id = useId();
  const [mm, setMm] = useState(pixelsPerMm.value);
  const trying = useTrying();
  const keep = async (): Promise<void> => {
    if (await trying.run(() => setPixelsPerMm(mm))) onDone?.();
  };
  return (
    <div class="calibrate">
      <p class="reading">
        Lay a bank card on the screen, on the outline, and set the outline until it has the size of the card. All such cards are
        85.6 by 54 mm.
      </p>
      <div class="cardroom" role="region" aria-label="Where the card lies" tabIndex={0}>
        <div
          class="cardline"
          style={{ width: `${mm * CARD_WIDTH_MM}px`, height: `${mm * CARD_HEIGHT_MM}px` }}
          role="img"
          aria-label="Outline of a bank card"
        />
      </div>
      <label for={id} class="small label">
        Size of the outline; arrow keys make the smallest steps
      </label>
      <input
        id={id}
        class="range"
        type="range"
        min={PLAIN_MM * 0.5}
        max={PLAIN_MM * 2}
        step={STEP}
        value={mm}
        aria-valuetext={`${Math.round(mm * CARD_WIDTH_MM)} pixels wide`}
        onInput={(event) => setMm(event.currentTarget.valueAsNumber)}
      />
      <Trouble problem={trying.problem} />
      <Acts>
        <Word onClick={() => void keep()}>The card fits</Word>
        {onDone && <Word onClick={onDone}>Leave it</Word>}
        {isTrue() && <Word onClick={() => setMm(PLAIN_MM)}>As it came</Word>}
      </Acts>
    </div>
  );
}

/**
 * A ruler lying on the screen, true once a bank card was held against it. The cloth is laid along it with its first mark at
 * nought. As long as the screen allows; for a longer pull the tape is used.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { pixelsPerMm } from "../lib/store.js";
import { Word } from "../parts/touch.js";
import { Calibrate, isTrue } from "./calibrate.js";

const MM_PER_CM = 10;
/** No pull of ten centimetres is longer. */
const LONGEST_CM = 30;

/** `fold` marks a place, in cm: where the second mark of the cloth lies at rest. */
export function Ruler({ fold }: { readonly fold?: number }) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const [calibrating, setCalibrating] = useState(false);
  useLayoutEffect(() => {
    const element = place.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, [calibrating]);
  if (calibrating) return <Calibrate onDone={() => setCalibrating(false)} />;
  const cm = pixelsPerMm.value * MM_PER_CM;
  const long = Math.min(LONGEST_CM, Math.floor((width - 12) / cm));
  return (
    <div class="rulerplace" ref={place}>
      {isTrue() ? (
        long >= 5 && (
          <>
            <div class="ruler" aria-hidden="true" style={{ width: `calc(var(--mm) * ${long * MM_PER_CM} + 1px)` }}>
              {Array.from({ length: long + 1 }, (_, n) => (
                <span key={n} class={n % 5 === 0 ? "five" : ""} style={{ left: `calc(var(--mm) * ${n * MM_PER_CM})` }}>
                  {n}
                </span>
              ))}
              {fold !== undefined && fold <= long && <i style={{ left: `calc(var(--mm) * ${fold * MM_PER_CM})` }} />}
            </div>
            <p class="small">
              True on this screen, up to {long} cm; use the tape for more.{" "}
              <Word onClick={() => setCalibrating(true)}>Lay the card again</Word>
            </p>
          </>
        )
      ) : (
        <p class="small">
          A ruler can lie here, true to the millimetre. <Word onClick={() => setCalibrating(true)}>Make it true with a bank card</Word>
        </p>
      )}
    </div>
  );
}

/**
 * The tape down the sheet: centimetres on the right edge, inches on the left. It is a ruler, not a scrollbar; once the
 * screen is calibrated its centimetres are true.
 *
 * Ticks are one repeating gradient, figures are placed in CSS lengths of `--mm`, so a change of scale moves both at once.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { pixelsPerMm } from "../lib/store.js";

const MM_PER_CM = 10;
const MM_PER_INCH = 25.4;

/** Fills the height it is given and numbers it. Decoration: unseen by screen readers. */
export function Tape() {
  const tape = useRef<HTMLDivElement>(null);
  const [height, setHeight] = useState(0);
  useLayoutEffect(() => {
    const element = tape.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setHeight(element.clientHeight));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  const long = height / pixelsPerMm.value;
  return (
    <div ref={tape} class="tape" aria-hidden="true">
      <div class="ticks" />
      <i class="tip" />
      {upTo(long / MM_PER_CM).map((n) => (
        <span key={`cm${n}`} class={n % 10 === 0 ? "cm ten" : "cm"} style={{ top: `calc(var(--mm) * ${n * MM_PER_CM})` }}>
          {n % 100 === 0 ? n / 100 : n % 100}
          {n % 100 === 0 && <small>m</small>}
        </span>
      ))}
      {upTo(long / MM_PER_INCH).map((n) => (
        <span key={`in${n}`} class={n < 100 ? "in" : "in long"} style={{ top: `calc(var(--mm) * ${n * MM_PER_INCH})` }}>
          {n}
        </span>
      ))}
    </div>
  );
}

/** 1 to the whole part of `end`. */
function upTo(end: number): readonly number[] {
  return Array.from({ length: Math.max(0, Math.floor(end)) }, (_, i) => i + 1);
}

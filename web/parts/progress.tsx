/** How far long work is: a sentence, a tape strip that fills, and "Stop". The page stays usable meanwhile. */
import { useEffect, useState } from "preact/hooks";
import { Word } from "./touch.js";

/** Work that ends sooner than this shows nothing. */
const SHOW_AFTER_MS = 300;

/** `share` is 0 to 1, or `null` while nobody knows; the strip then stays empty and the sentence does the telling. */
export function Progress({ says, share, onStop }: {
  /** "Fit: step 6 of about 9, 40 %", worded by the studio. */
  readonly says: string;
  readonly share: number | null;
  readonly onStop?: () => void;
}) {
  const [shown, setShown] = useState(false);
  useEffect(() => {
    const wait = setTimeout(() => setShown(true), SHOW_AFTER_MS);
    return () => clearTimeout(wait);
  }, []);
  if (!shown) return null;
  const part = share === null ? 0 : Math.min(1, Math.max(0, share));
  return (
    <div class="progress">
      <p aria-live="polite">{says}</p>
      <div
        class="strip"
        role="progressbar"
        aria-label={says}
        aria-valuemin={0}
        aria-valuemax={100}
        {...(share !== null && { "aria-valuenow": Math.round(part * 100) })}
      >
        <div style={{ transform: `scaleX(${part})` }} />
      </div>
      {onStop && <Word onClick={onStop}>Stop</Word>}
    </div>
  );
}

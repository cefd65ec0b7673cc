/** "Back one: strap 4.2 to 3.8" and "Forward: nothing": undo that names what it undoes. */
import { Acts, Word } from "./touch.js";

/** What a step back or forward would do, in words; `null` when there is none. */
export interface Undo {
  readonly back: string | null;
  readonly forward: string | null;
  readonly onBack: () => void;
  readonly onForward: () => void;
}

/** Both words on a line. */
export function BackOne({ back, forward, onBack, onForward }: Undo) {
  return (
    <Acts>
      {back === null ? <span class="small">Back one: nothing</span> : <Word onClick={onBack}>Back one: {back}</Word>}
      {forward === null ? <span class="small">Forward: nothing</span> : <Word onClick={onForward}>Forward: {forward}</Word>}
    </Acts>
  );
}

/** What turns a drawn form: dragged sideways, or by the arrow keys. Lies over the drawing it turns. */
import { useRef } from "preact/hooks";

/** Degrees a step of the arrow keys turns, and with Shift. */
const STEP = 5;
const LEAP = 45;
/** Degrees a pixel of dragging turns. */
const DRAG = 0.5;

/** `turn` in degrees, 0 from the front, positive towards her left side; `onTurn` what it should become, between -180 and 180. */
export function Turner({ turn, onTurn }: { readonly turn: number; readonly onTurn: (turn: number) => void }) {
  const drag = useRef<{ readonly x: number; readonly turn: number } | null>(null);
  const key = (event: KeyboardEvent): void => {
    const by = event.shiftKey ? LEAP : STEP;
    const wanted = ((): number | null => {
      switch (event.key) {
        case "ArrowRight":
        case "ArrowUp":
          return turn + by;
        case "ArrowLeft":
        case "ArrowDown":
          return turn - by;
        case "PageUp":
          return turn + LEAP;
        case "PageDown":
          return turn - LEAP;
        case "Home":
          return 0;
        case "End":
          return 180;
        default:
          return null;
      }
    })();
    if (wanted === null) return;
    event.preventDefault();
    onTurn(once(wanted));
  };
  return (
    <div
      class="turn"
      role="slider"
      tabIndex={0}
      aria-label="Turn the form"
      aria-valuemin={-180}
      aria-valuemax={180}
      aria-valuenow={Math.round(turn)}
      aria-valuetext={said(turn)}
      onKeyDown={key}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        drag.current = { x: event.clientX, turn };
      }}
      onPointerMove={(event) => {
        if (drag.current) onTurn(once(drag.current.turn - (event.clientX - drag.current.x) * DRAG));
      }}
      onPointerUp={() => {
        drag.current = null;
      }}
      onPointerCancel={() => {
        drag.current = null;
      }}
    />
  );
}

/** Into -180 to 180. */
export function once(turn: number): number {
  const positive = ((turn % 360) + 360) % 360;
  return positive > 180 ? positive - 360 : positive;
}

/** "from the front", "35 degrees towards her left". */
function said(turn: number): string {
  const whole = Math.round(turn);
  if (whole === 0) return "from the front";
  if (Math.abs(whole) === 180) return "from behind";
  return `${Math.abs(whole)} degrees towards the ${whole > 0 ? "left" : "right"} side`;
}

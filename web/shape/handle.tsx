/**
 * A handle on a piece: a ring of 10 px in a touchable field of 60, dragged or moved with the arrow keys. It moves along its
 * own way only; an arrow key moves it as far as the key points that way.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { HandleView } from "../api/types.js";
import { arrows } from "../lib/focus.js";
import { inWords } from "../order/quantity.js";
import type { Moving } from "./moving.js";

/** Radius of the ring and of the field around it, px. */
const RING = 10;
const FIELD = 30;
/** Millimetres a step of the arrow keys moves, and with Shift. */
const STEP = 1;
const LEAP = 5;

/** `px` is how many mm a screen pixel covers; `isRight` puts the value to the left of the ring. */
export function Handle({ handle, moving, px, isRight }: {
  readonly handle: HandleView;
  readonly moving: Moving;
  readonly px: number;
  readonly isRight: boolean;
}) {
  const [hasFocus, setFocus] = useState(false);
  const grip = useRef<{ readonly x: number; readonly y: number; readonly by: number; readonly px: number } | null>(null);
  const ring = useRef<SVGGElement>(null);
  // `touch-action` is not heeded inside a drawing everywhere: a touch that starts here must not scroll the page.
  useLayoutEffect(() => {
    const element = ring.current;
    const still = (event: TouchEvent): void => event.preventDefault();
    element?.addEventListener("touchstart", still, { passive: false });
    return () => element?.removeEventListener("touchstart", still);
  }, []);
  const held = moving.held.value;
  const isHeld = held?.handle === handle.key;
  const { along, at, value, range } = handle;

  const key = (event: KeyboardEvent): void => {
    if (event.key === "Escape" && isHeld) {
      event.preventDefault();
      event.stopPropagation();
      grip.current = null;
      moving.back();
    } else if (event.key === "Enter" && isHeld) {
      event.preventDefault();
      void moving.keep();
    }
    const arrow = arrows[event.key];
    if (!arrow) return;
    event.preventDefault();
    const dot = arrow.x * along.x + arrow.y * along.y;
    // Across its way the keys that mean more on a slider move it on.
    const sign = Math.abs(dot) > 0.2 ? Math.sign(dot) : arrow.x > 0 || arrow.y < 0 ? 1 : -1;
    moving.to(handle.key, (isHeld ? moving.by() : 0) + sign * (event.shiftKey ? LEAP : STEP));
  };
  const letGo = (): void => {
    if (!grip.current) return;
    grip.current = null;
    void moving.keep();
  };
  return (
    <g
      ref={ring}
      id={`handle-${handle.key}`}
      class={isHeld ? "handle held" : "handle"}
      role="slider"
      tabIndex={0}
      aria-label={handle.name}
      aria-valuemin={range[0]}
      aria-valuenow={range[1]}
      aria-valuemax={range[2]}
      aria-valuetext={value.spoken}
      transform={`translate(${at.x} ${at.y})`}
      onFocus={() => setFocus(true)}
      onBlur={() => {
        setFocus(false);
        // Something else took the focus with a step not kept: letting go keeps, as with the hand.
        if (isHeld && !grip.current) void moving.keep();
      }}
      onKeyDown={key}
      onPointerDown={(event) => {
        if (event.button !== 0 || held?.isKept) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        event.currentTarget.focus({ preventScroll: true });
        event.preventDefault();
        grip.current = { x: event.clientX, y: event.clientY, by: isHeld ? moving.by() : 0, px };
      }}
      onPointerMove={(event) => {
        const from = grip.current;
        if (!from) return;
        const moved = ((event.clientX - from.x) * along.x + (event.clientY - from.y) * along.y) * from.px;
        moving.to(handle.key, Math.round((from.by + moved) * 10) / 10);
      }}
      onPointerUp={letGo}
      onPointerCancel={() => {
        grip.current = null;
        moving.back();
      }}
    >
      <circle class="field" r={FIELD * px} />
      <circle class="ring" r={RING * px} />
      {(hasFocus || isHeld) && (
        <text
          class="handlevalue"
          aria-hidden="true"
          x={(isRight ? -18 : 18) * px}
          y={-14 * px}
          font-size={17 * px}
          stroke-width={5 * px}
          text-anchor={isRight ? "end" : "start"}
        >
          {inWords(value)}
          {value.second !== "" && (
            <tspan class="handlesecond" dx={8 * px} font-size={14 * px}>
              {value.second}
            </tspan>
          )}
        </text>
      )}
    </g>
  );
}

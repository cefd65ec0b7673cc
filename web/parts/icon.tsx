/**
 * The icons. Each state has one, drawn on a 24 unit square in the colour of its words, and readable in grey.
 *
 * Icons never stand alone: [StateIcon] sets the word beside it, a bare [Icon] is for places where the word is there already.
 */
import type { VNode } from "preact";
import { word } from "../lib/state.js";
import type { Mark } from "../lib/state.js";

/** The states' icons, and the few that stand for an action beside its word. */
export type IconName = Mark | "search" | "tick";

const drawn: Readonly<Record<IconName, () => VNode>> = {
  stop: () => (
    <path
      d="M7.6 1.5h8.8l6.1 6.1v8.8l-6.1 6.1H7.6l-6.1-6.1V7.6ZM6 10.2v3.6h12v-3.6Z"
      fill="currentColor"
      fill-rule="evenodd"
    />
  ),
  doubtful: () => (
    <>
      <path d="M12 2.5 22 20.5H2Z" stroke-width="2.2" stroke-linejoin="round" />
      <path d="M9.7 11.2c0-3 4.7-2.6 4.6.1 0 1.7-2.3 1.7-2.3 3.6" stroke-width="1.9" />
      <circle cx="12" cy="17.8" r="1.2" fill="currentColor" stroke="none" />
    </>
  ),
  missing: () => <circle cx="12" cy="12" r="9" stroke-width="2.2" stroke-dasharray="4.2 3" />,
  good: () => <path d="M3 13.2 9 19.5 21.5 4.5" stroke-width="2.8" />,
  tick: () => <path d="M3 13.2 9 19.5 21.5 4.5" stroke-width="2.8" />,
  estimate: () => <path d="M3 14c3-6 6-6 9 0s6 6 9 0" stroke-width="2.2" />,
  how: () => (
    <path
      d="m3 21 1.6-5.6L16.4 3.6a2 2 0 0 1 2.8 0l1.2 1.2a2 2 0 0 1 0 2.8L8.6 19.4Z"
      stroke-width="2"
    />
  ),
  search: () => (
    <>
      <circle cx="10" cy="10" r="6.5" stroke-width="2" />
      <path d="m15 15 6.5 6.5" stroke-width="2.4" />
    </>
  ),
};

/** A bare icon, unseen by screen readers: its word stands beside it. */
export function Icon({ name }: { readonly name: IconName }) {
  const Drawn = drawn[name];
  return (
    <svg class="icon" viewBox="0 0 24 24" fill="none" stroke={name === "stop" ? "none" : "currentColor"} aria-hidden="true">
      <Drawn />
    </svg>
  );
}

/** Icon and word in the state's colour. `says` replaces the plain word: "In stock", "22 of 22". */
export function StateIcon({ state, says, pencil = false }: {
  readonly state: Mark;
  readonly says?: string;
  /** In pencil, for lists where the state is a remark and not a verdict. */
  readonly pencil?: boolean;
}) {
  return (
    <span class={`state ${state}${pencil ? " inpencil" : ""}`}>
      <Icon name={state} />
      <span>{says ?? word[state]}</span>
    </span>
  );
}

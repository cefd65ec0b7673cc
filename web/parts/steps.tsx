/** The order of work: a box to tick, the step's number, what to do, and on which machine. */
import type { ComponentChildren } from "preact";

/** One operation. */
export interface StepLine {
  readonly n: number;
  readonly says: string;
  /** "overlocker". */
  readonly machine: string;
  readonly done: boolean;
  /** A word beside the line. */
  readonly beside?: ComponentChildren;
  /** What the line opens to. */
  readonly below?: ComponentChildren;
}

/** `now` is the number of the step in hand. Ticking tells `onTick`; the box follows `done` of the steps it is given. */
export function Steps({ steps, now, onTick, name }: {
  readonly steps: readonly StepLine[];
  readonly now: number | null;
  readonly onTick: (n: number, done: boolean) => void;
  readonly name: string;
}) {
  return (
    <ol class="steps" aria-label={name}>
      {steps.map((step) => (
        <li key={step.n} class={step.n === now ? "now" : ""} aria-current={step.n === now ? "step" : undefined}>
          <label>
            <input
              type="checkbox"
              checked={step.done}
              onChange={(event) => {
                const wanted = event.currentTarget.checked;
                event.currentTarget.checked = step.done;
                onTick(step.n, wanted);
              }}
            />
            <svg class="tick" viewBox="0 0 24 24" aria-hidden="true">
              <path d="M3 13.2 9 19.5 21.5 4.5" fill="none" stroke="currentColor" stroke-width="2.8" />
            </svg>
            <span class="n">{step.n}</span>
            <span class="what">{step.says}</span>
            <span class="machine">{step.machine}</span>
          </label>
          {step.beside}
          {step.below}
        </li>
      ))}
    </ol>
  );
}

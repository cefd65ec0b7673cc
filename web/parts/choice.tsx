/** One of a few words on a line: the chosen one bold with a 3 px rule. For fewer than eight; arrow keys move and choose. */
import { useId, useRef } from "preact/hooks";
import { arrowTo } from "../lib/focus.js";

/** One word to choose. */
export interface Option<V extends string> {
  readonly value: V;
  readonly says: string;
  /** Read out instead of `says`, for signs such as "in ⅛". */
  readonly spoken?: string;
}

/**
 * A radio group without boxes. `name` is the visible label; `hideName` keeps it for ears only where the heading above says
 * it already. `tight` sets the words close, for units beside a figure.
 */
export function Choice<V extends string>({ name, options, value, onChange, hideName = false, tight = false, describedBy }: {
  readonly name: string;
  readonly options: readonly Option<V>[];
  /** `null` while nothing is chosen. */
  readonly value: V | null;
  readonly onChange: (value: V) => void;
  readonly hideName?: boolean;
  readonly tight?: boolean;
  readonly describedBy?: string;
}) {
  const label = useId();
  const group = useRef<HTMLDivElement>(null);
  const chosen = options.findIndex((option) => option.value === value);
  const move = (event: KeyboardEvent, at: number): void => {
    const to = arrowTo(event.key, at, options.length);
    const option = to === null ? undefined : options[to];
    if (to === null || !option) return;
    event.preventDefault();
    onChange(option.value);
    group.current?.querySelectorAll<HTMLElement>('[role="radio"]')[to]?.focus();
  };
  return (
    <div class={tight ? "choice tight" : "choice"}>
      <span id={label} class={hideName ? "heard" : "small label"}>
        {name}
      </span>
      <div ref={group} class="words" role="radiogroup" aria-labelledby={label} aria-describedby={describedBy}>
        {options.map((option, i) => (
          <button
            key={option.value}
            type="button"
            role="radio"
            aria-checked={option.value === value}
            aria-label={option.spoken}
            tabIndex={i === Math.max(chosen, 0) ? 0 : -1}
            onClick={() => onChange(option.value)}
            onKeyDown={(event) => move(event, i)}
          >
            {option.says}
          </button>
        ))}
      </div>
    </div>
  );
}

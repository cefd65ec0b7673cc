/**
 * A section of the order sheet: a 2 px ink rule from the tape, a numeral in the gap, one summary sentence, notes in the
 * margin. A closed one is its head and its sentence only.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { opensItself } from "../lib/state.js";
import type { State } from "../lib/state.js";
import { Word } from "../parts/touch.js";
import { Margin } from "./margin.js";

/**
 * Opens by itself when its state is missing, doubtful or stop, and can be folded all the same; `open` takes that over
 * (then `onOpen` must answer, or it stays as it is). `children` are not drawn while it is closed.
 */
export function Section({ id, n, name, state, summary, notes, open, onOpen, wide = false, children }: {
  /** Also the mark's id. */
  readonly id: string;
  readonly n?: number;
  readonly name: string;
  /** Its worst state; the marks show the same. */
  readonly state: State;
  /** One sentence, right in the head. */
  readonly summary: ComponentChildren;
  /** [Note]s; they stand in the margin, on small screens under the head. */
  readonly notes?: ComponentChildren;
  readonly open?: boolean;
  readonly onOpen?: (open: boolean) => void;
  /** Takes the margin as well: lists on the first page. No notes then. */
  readonly wide?: boolean;
  readonly children?: ComponentChildren;
}) {
  const [mine, setMine] = useState<boolean | null>(null);
  const [opening, setOpening] = useState(false);
  const must = opensItself(state);
  useEffect(() => {
    if (must) setMine(null);
  }, [must]);
  // What was drawn open stays so when its state turns good: nothing folds under the hand.
  const stood = useRef(must);
  if (must) stood.current = true;
  const isOpen = open ?? mine ?? stood.current;
  const fold = (to: boolean): void => {
    setOpening(to);
    setMine(to);
    onOpen?.(to);
  };
  const look = `section ${state} ${isOpen ? "open" : "closed"}${opening ? " opening" : ""}${wide ? " wide" : ""}`;
  return (
    <section id={id} class={look} onAnimationEnd={() => setOpening(false)}>
      <div class="sectionhead">
        {n !== undefined && (
          <span class="numeral" aria-hidden="true">
            {n}
          </span>
        )}
        <h2 id={`${id}-name`}>{name}</h2>
        <p class="summary">
          {summary}{" "}
          {(open === undefined || onOpen) && (
            <Word expanded={isOpen} controls={`${id}-body`} onClick={() => fold(!isOpen)}>
              {isOpen ? "Close" : "Open"}
              <span class="heard"> {name}</span>
            </Word>
          )}
        </p>
      </div>
      {isOpen && notes !== undefined && !wide && <Margin name={name}>{notes}</Margin>}
      <div id={`${id}-body`} class="body" hidden={!isOpen}>
        {isOpen && children}
      </div>
    </section>
  );
}

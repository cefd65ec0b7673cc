/**
 * Pencil in the margin: notes level with what they speak of. A note is icon, word, what was found, then what to do next,
 * then one link or word.
 */
import { useLayoutEffect, useRef } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { unbroken } from "../lib/quantity.js";
import { word } from "../lib/state.js";
import type { Mark } from "../lib/state.js";
import { Icon } from "../parts/icon.js";
import { SLIP_LAID } from "../parts/slip.js";
import { Word } from "../parts/touch.js";

/** Least distance between two notes, or a note and a slip, px. */
const APART = 22;

/** The one thing a note offers. */
export interface NoteAction {
  readonly says: string;
  readonly href?: string;
  readonly onClick?: () => void;
}

/**
 * `says` what was found and `next` what to do, each a short sentence or two. `by` is the id of the element the note speaks
 * of: on the desktop the note stands at its height, or as close below as the notes above allow.
 */
export function Note({ state, says, next, action, by }: {
  readonly state: Mark;
  readonly says: ComponentChildren;
  readonly next?: ComponentChildren;
  readonly action?: NoteAction;
  readonly by?: string;
}) {
  return (
    <div class={`note ${state}`} data-by={by}>
      <Icon name={state} />
      <p class="word">{state === "estimate" ? "Estimate" : word[state]}</p>
      <p class="says">{held(says)}</p>
      {next !== undefined && <p class="next">{held(next)}</p>}
      {action && (
        <Word {...(action.href !== undefined && { href: action.href })} {...(action.onClick && { onClick: action.onClick })}>
          {action.says}
        </Word>
      )}
    </div>
  );
}

function held(says: ComponentChildren): ComponentChildren {
  return typeof says === "string" ? unbroken(says) : says;
}

/** The margin of one section. [Section] makes it; `name` is the section's. */
export function Margin({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  const margin = useRef<HTMLElement>(null);
  useLevel(margin);
  return (
    <aside ref={margin} class="margin" aria-label={`${name}: notes`}>
      {children}
    </aside>
  );
}

/**
 * Moves notes down to the height of what they name, never over each other or under an open slip. Style sheets undo it on
 * small screens.
 */
function useLevel(margin: { readonly current: HTMLElement | null }): void {
  useLayoutEffect(() => {
    const aside = margin.current;
    const section = aside?.closest("section");
    if (!aside || !section) return;
    const level = (): void => {
      const start = aside.getBoundingClientRect().top + Number.parseFloat(getComputedStyle(aside).paddingTop);
      let bottom = start - APART;
      const slips = [...section.querySelectorAll(".slip")]
        .filter((slip) => getComputedStyle(slip).position === "absolute")
        .map((slip) => slip.getBoundingClientRect());
      for (const note of aside.querySelectorAll<HTMLElement>(":scope > .note")) {
        const subject = note.dataset["by"] ? document.getElementById(note.dataset["by"]) : null;
        const wanted = subject?.getBoundingClientRect().top ?? start;
        let top = Math.max(wanted, bottom + APART);
        for (const slip of slips) {
          if (top < slip.bottom + APART && top + note.offsetHeight + APART > slip.top) top = slip.bottom + APART;
        }
        note.style.marginTop = `${top - Math.max(bottom, start)}px`;
        bottom = top + note.offsetHeight;
      }
    };
    level();
    const watch = new ResizeObserver(level);
    watch.observe(section);
    section.addEventListener(SLIP_LAID, level);
    return () => {
      watch.disconnect();
      section.removeEventListener(SLIP_LAID, level);
    };
  });
}

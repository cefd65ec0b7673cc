/** Where the focus goes when something opens, closes or is redrawn, and what arrow keys mean. */
import type { Spot } from "../api/types.js";

const TOUCHABLE = 'a[href], button:not([disabled]), input:not([disabled]), select, textarea, [tabindex]:not([tabindex="-1"])';

/** Focuses the first thing inside that takes it; the element itself when there is none. */
export function focusFirst(inside: HTMLElement): void {
  const found = inside.querySelector<HTMLElement>(TOUCHABLE);
  if (found) {
    found.focus();
    return;
  }
  inside.tabIndex = -1;
  inside.focus();
}

/**
 * Runs `change` and puts the focus back on the element with the same id when the change took it away, as replacing markup
 * does. Without this an arrow key works once.
 */
export function keepFocus(change: () => void): void {
  const id = document.activeElement?.id;
  change();
  if (id && document.activeElement?.id !== id) document.getElementById(id)?.focus({ preventScroll: true });
}

/** Jumps to a section: scrolls it to the top and focuses its heading, so that reading goes on from there. */
export function jumpTo(id: string): void {
  const section = document.getElementById(id);
  if (!section) return;
  section.scrollIntoView({ block: "start" });
  const heading = section.querySelector<HTMLElement>("h1, h2");
  if (!heading) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
}

/** Which way an arrow key points on a drawing, y down. */
export const arrows: Readonly<Record<string, Spot>> = {
  ArrowRight: { x: 1, y: 0 },
  ArrowLeft: { x: -1, y: 0 },
  ArrowDown: { x: 0, y: 1 },
  ArrowUp: { x: 0, y: -1 },
};

/** Which of `count` an arrow key leads to from `at`; `null` for other keys. Goes round at the ends. */
export function arrowTo(key: string, at: number, count: number): number | null {
  switch (key) {
    case "ArrowRight":
    case "ArrowDown":
      return (at + 1) % count;
    case "ArrowLeft":
    case "ArrowUp":
      return (at + count - 1) % count;
    case "Home":
      return 0;
    case "End":
      return count - 1;
    default:
      return null;
  }
}

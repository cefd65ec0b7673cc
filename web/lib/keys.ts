/**
 * Shortcut keys: 1 to 8 jump to sections, `?` lists the keys. They act only while no field has the focus, and the maker can
 * switch them off (WCAG 2.1.4); those with Ctrl stay.
 */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import { numberKeys } from "./store.js";

/** One key and what it does, as the list of keys shows it. */
export interface Key {
  /** As `KeyboardEvent.key`: "1", "?"; with "Ctrl+" or "Ctrl+Shift+" before a letter, which is ⌘ on some keyboards. */
  readonly key: string;
  /** "Wearer", "Show or hide this list". */
  readonly says: string;
  readonly act: () => void;
}

const known = signal<readonly Key[]>([]);

/** All keys that act now, in the order they were added. */
export const keys: ReadonlySignal<readonly Key[]> = known;

/** Adds keys until the returned function is called. */
export function addKeys(added: readonly Key[]): () => void {
  known.value = [...known.peek(), ...added];
  return () => {
    known.value = known.peek().filter((key) => !added.includes(key));
  };
}

/** Starts listening; once, from main. */
export function startKeys(): void {
  document.addEventListener("keydown", (event) => {
    const withCtrl = event.ctrlKey || event.metaKey;
    if (event.defaultPrevented || event.altKey || !(withCtrl || numberKeys.value)) return;
    if (isField(event.target)) return;
    const name = withCtrl ? `Ctrl+${event.shiftKey ? "Shift+" : ""}${event.key.toUpperCase()}` : event.key;
    const found = known.peek().find((key) => key.key === name);
    if (!found) return;
    event.preventDefault();
    found.act();
  });
}

/** Something that takes typed letters for itself. */
export function isField(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["checkbox", "radio", "button", "submit", "range"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable;
}

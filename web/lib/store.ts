/**
 * What this browser remembers for the maker at this screen, as signals: light, number keys, how long a true millimetre is.
 *
 * Kept in local storage, because it belongs to the screen and not to a suit. A browser that refuses storage still works;
 * it only forgets.
 */
import { effect, signal } from "@preact/signals";
import type { Signal } from "@preact/signals";

/** `system` follows the machine's own setting. */
export type Light = "system" | "day" | "night";

/** CSS pixels in a millimetre when nothing better is known: 96 to the inch. */
export const PLAIN_MM = 96 / 25.4;

/** A bank card (ISO/IEC 7810, ID-1) is this wide, in mm; held against the screen it calibrates the tape. */
export const CARD_WIDTH_MM = 85.6;

/** Day or night. */
export const light: Signal<Light> = remembered("light", "system", (text) =>
  text === "day" || text === "night" ? text : "system",
);

/** Whether 1 to 8 and `?` act; some speech programs type them by themselves. */
export const numberKeys: Signal<boolean> = remembered("number-keys", true, (text) => text !== "false");

/** CSS pixels in one true millimetre on this screen. */
export const pixelsPerMm: Signal<number> = remembered("pixels-per-mm", PLAIN_MM, (text) => {
  const read = Number(text);
  return read > 1 && read < 40 ? read : PLAIN_MM;
});

/** Last thing the studio said about keeping: "kept 14:02", "not kept: the studio does not answer". */
export const kept: Signal<string> = signal("");

function remembered<T extends string | number | boolean>(key: string, plain: T, read: (text: string) => T): Signal<T> {
  const name = `slackwater.${key}`;
  let start = plain;
  try {
    const text = localStorage.getItem(name);
    if (text !== null) start = read(text);
  } catch {
    // No storage: the plain value for this visit.
  }
  const value = signal(start);
  let first = true;
  effect(() => {
    const text = String(value.value);
    if (first) {
      first = false;
      return;
    }
    try {
      localStorage.setItem(name, text);
    } catch {
      // As above: forgotten with the page.
    }
  });
  return value;
}

/** Writes light and scale to the document's root; once, from main. */
export function startStore(): void {
  const root = document.documentElement;
  effect(() => {
    if (light.value === "system") delete root.dataset["light"];
    else root.dataset["light"] = light.value;
  });
  effect(() => {
    root.style.setProperty("--mm", `${pixelsPerMm.value}px`);
  });
}

/**
 * What this browser remembers for the maker at this screen, as signals: light, number keys, how long a true millimetre is.
 *
 * Kept in local storage, because it belongs to the screen and not to a suit. Where this browser has no word of its own, that
 * of the studio stands ([adopt]). A browser that refuses storage still works; it only forgets.
 */
import { effect, signal } from "@preact/signals";
import type { Signal } from "@preact/signals";

/** `system` follows the machine's own setting. */
export type Light = "system" | "day" | "night";

/** CSS pixels in a millimetre when nothing better is known: 96 to the inch. */
export const PLAIN_MM = 96 / 25.4;

/** A bank card (ISO/IEC 7810, ID-1) is this wide, in mm; held against the screen it calibrates the tape. */
export const CARD_WIDTH_MM = 85.6;

/** Names of what this browser has a word of its own for. */
const own = new Set<string>();
/** While the studio's word is taken over, nothing is written as this browser's own. */
let isAdopting = false;

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
    if (text !== null) {
      start = read(text);
      own.add(key);
    }
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
    if (isAdopting) return;
    own.add(key);
    try {
      localStorage.setItem(name, text);
    } catch {
      // As above: forgotten with the page.
    }
  });
  return value;
}

/** What the studio keeps of the same, for browsers that say nothing themselves. */
export interface KeptForAll {
  readonly light: string;
  readonly keys: boolean;
  readonly screen: { readonly px_per_mm: number | null };
}

/** Takes the studio's word where this browser has none of its own. */
export function adopt(said: KeptForAll): void {
  isAdopting = true;
  try {
    if (!own.has("light") && (said.light === "day" || said.light === "night" || said.light === "system")) light.value = said.light;
    if (!own.has("number-keys")) numberKeys.value = said.keys;
    if (!own.has("pixels-per-mm") && said.screen.px_per_mm !== null) pixelsPerMm.value = said.screen.px_per_mm;
  } finally {
    isAdopting = false;
  }
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

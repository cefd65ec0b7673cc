/**
 * Where one was on the order: which sections are open, and how far down. Kept for this tab, so that reload, back and forward
 * find the page as it was left; the section itself is in the address after `#`.
 */
import { recall, remember } from "../lib/tab.js";
import { sectionIds } from "./context.js";
import type { SectionId } from "./context.js";

/** Sections she opened or closed herself. */
export type Opened = Readonly<Partial<Record<SectionId, boolean>>>;

/** Reads what is remembered of a suit. */
export function readOpened(suit: string): Opened {
  const held = recall(`open.${suit}`);
  return typeof held === "object" && held !== null ? (held as Opened) : {};
}

/** Remembers it. */
export function writeOpened(suit: string, opened: Opened): void {
  remember(`open.${suit}`, opened);
}

/** The section an address names, as `shape` or as a field of its own. */
export function sectionIn(hash: string): SectionId | null {
  return sectionIds.find((id) => id === hash) ?? null;
}

/** How far below a section's head (or the page's) the window's top was; 0 when another one was read last. */
export function readDepth(suit: string, section: SectionId | null): number {
  const held = recall(`depth.${suit}`) as { section?: unknown; depth?: unknown } | null;
  return held?.section === section && typeof held.depth === "number" ? held.depth : 0;
}

/** The page still grows for this long after it is drawn: the form and the paper's fonts arrive late. */
const GROWS_MS = 2500;

/** Holds the window where it was, while the page grows and until she moves it herself; then `done`. Returns how to stop. */
export function holdPlace(section: SectionId | null, depth: number, done: () => void): () => void {
  const put = (): void => {
    const top = section ? (document.getElementById(section)?.getBoundingClientRect().top ?? -scrollY) + scrollY : 0;
    scrollTo(0, top + depth);
  };
  const main = document.getElementById("sheet");
  const watch = new ResizeObserver(put);
  let over = false;
  const end = (): void => {
    if (over) return;
    over = true;
    watch.disconnect();
    clearTimeout(timer);
    for (const name of touches) removeEventListener(name, end, true);
    done();
  };
  const timer = setTimeout(end, GROWS_MS);
  const touches = ["wheel", "touchstart", "pointerdown", "keydown", "hashchange"] as const;
  for (const name of touches) addEventListener(name, end, { capture: true, passive: true });
  put();
  if (main) watch.observe(main);
  return () => {
    over = true;
    watch.disconnect();
    clearTimeout(timer);
    for (const name of touches) removeEventListener(name, end, true);
  };
}

/**
 * Writes the section being read into the address while the page is scrolled, without a step to go back to. Returns how to
 * stop.
 */
export function followReading(suit: string): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const note = (): void => {
    let at: HTMLElement | null = null;
    for (const id of sectionIds) {
      const section = document.getElementById(id);
      if (section && section.getBoundingClientRect().top <= innerHeight / 3) at = section;
    }
    const depth = at ? -at.getBoundingClientRect().top : scrollY;
    const hash = at ? `#${at.id}` : "";
    if (location.hash !== hash) history.replaceState(history.state, "", `${location.pathname}${location.search}${hash}`);
    remember(`depth.${suit}`, { section: at?.id ?? null, depth: Math.round(depth) });
  };
  const scrolled = (): void => {
    clearTimeout(timer);
    timer = setTimeout(note, 150);
  };
  addEventListener("scroll", scrolled, { passive: true });
  return () => {
    clearTimeout(timer);
    removeEventListener("scroll", scrolled);
  };
}

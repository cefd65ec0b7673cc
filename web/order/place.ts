/**
 * Where one was on the order: which sections are open, and how far down. Kept for this tab, so that reload, back and forward
 * find the page as it was left; the section itself is in the address after `#`.
 */
import { sectionIds } from "./context.js";
import type { SectionId } from "./context.js";

/** Sections she opened or closed herself. */
export type Opened = Readonly<Partial<Record<SectionId, boolean>>>;

/** Reads what is remembered of a suit. */
export function readOpened(suit: string): Opened {
  try {
    const held: unknown = JSON.parse(sessionStorage.getItem(`slackwater.open.${suit}`) ?? "{}");
    return typeof held === "object" && held !== null ? (held as Opened) : {};
  } catch {
    return {};
  }
}

/** Remembers it. */
export function writeOpened(suit: string, opened: Opened): void {
  try {
    sessionStorage.setItem(`slackwater.open.${suit}`, JSON.stringify(opened));
  } catch {
    // No storage: remembered for this visit of the page alone.
  }
}

/** The section an address names, as `shape` or as a field of its own. */
export function sectionIn(hash: string): SectionId | null {
  return sectionIds.find((id) => id === hash) ?? null;
}

/** How far below a section's head the window's top was. */
export function readDepth(suit: string): number {
  try {
    const depth = Number(sessionStorage.getItem(`slackwater.depth.${suit}`));
    return Number.isFinite(depth) ? depth : 0;
  } catch {
    return 0;
  }
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
    try {
      sessionStorage.setItem(`slackwater.depth.${suit}`, String(Math.round(depth)));
    } catch {
      // No storage: the head of the section will do.
    }
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

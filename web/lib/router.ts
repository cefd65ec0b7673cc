/**
 * Which page is shown: the address, kept in a signal, changed through the browser's history.
 *
 * Ordinary links work: a click on `<a href="/suits/14">` is taken over when it stays in these pages, and left to the
 * browser when it leaves them, opens elsewhere or saves a file. `data-leave` on a link leaves it to the browser too.
 */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";

/** Path as the browser has it, always starting with a slash. */
export interface Place {
  readonly path: string;
  readonly query: URLSearchParams;
  /** Without the `#`. */
  readonly hash: string;
}

const now = signal<Place>(read());

/** The address now. */
export const place: ReadonlySignal<Place> = now;

function read(): Place {
  return {
    path: location.pathname,
    query: new URLSearchParams(location.search),
    hash: decodeURIComponent(location.hash.slice(1)),
  };
}

/** Goes to an address of these pages. `replace` leaves no step to go back to. */
export function go(to: string, how: { readonly replace?: boolean } = {}): void {
  const before = location.pathname;
  if (how.replace) history.replaceState(null, "", to);
  else history.pushState(null, "", to);
  now.value = read();
  if (location.pathname !== before) arrive();
}

/** A new page starts at its head, for eyes and ears alike; its heading takes the focus once it is drawn. */
function arrive(): void {
  scrollTo(0, 0);
  requestAnimationFrame(() => {
    const heading = document.querySelector<HTMLElement>("main h1");
    if (!heading) return;
    heading.tabIndex = -1;
    heading.focus({ preventScroll: true });
  });
}

/** Starts listening; once, from main. */
export function startRouter(): void {
  addEventListener("popstate", () => {
    now.value = read();
  });
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!(link instanceof HTMLAnchorElement) || !isOurs(event, link)) return;
    event.preventDefault();
    go(link.pathname + link.search + link.hash);
  });
}

function isOurs(event: MouseEvent, link: HTMLAnchorElement): boolean {
  const plain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;
  if (!plain || event.defaultPrevented || link.origin !== location.origin) return false;
  if (link.target !== "" || link.hasAttribute("download") || link.dataset["leave"] !== undefined) return false;
  // A jump on this page is the browser's own work.
  return !(link.hash !== "" && link.pathname === location.pathname && link.search === location.search);
}

/**
 * Fits a pattern with named parts against a path: `match("/suits/:suit", "/suits/14")` is `{suit: "14"}`; `null` when it
 * does not fit. A trailing slash makes no difference.
 */
export function match(pattern: string, path: string): Readonly<Record<string, string>> | null {
  const wanted = parts(pattern);
  const given = parts(path);
  if (wanted.length !== given.length) return null;
  const found: Record<string, string> = {};
  for (const [i, part] of wanted.entries()) {
    const at = given[i] ?? "";
    if (part.startsWith(":")) {
      try {
        found[part.slice(1)] = decodeURIComponent(at);
      } catch {
        return null;
      }
    } else if (part !== at) return null;
  }
  return found;
}

function parts(path: string): readonly string[] {
  return path.split("/").filter((part) => part !== "");
}

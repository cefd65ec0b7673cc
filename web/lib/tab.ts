/**
 * What this tab remembers until it is closed, under a name. A browser that refuses storage still works; it only forgets.
 */

/** What is remembered; null for nothing, and for what cannot be read. */
export function recall(name: string): unknown {
  try {
    return JSON.parse(sessionStorage.getItem(`slackwater.${name}`) ?? "null");
  } catch {
    return null;
  }
}

/** Remembers it; null forgets. */
export function remember(name: string, value: unknown): void {
  try {
    if (value === null) sessionStorage.removeItem(`slackwater.${name}`);
    else sessionStorage.setItem(`slackwater.${name}`, JSON.stringify(value));
  } catch {
    // No storage: forgotten with the page.
  }
}

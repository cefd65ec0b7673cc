/** All documents of one kind, followed as they change. */
import { API, useLoaded } from "./asking.js";
import type { Document, Loaded } from "./asking.js";
import type { Body } from "./lengths.js";

/** The documents, oldest first; null while they are on their way. */
export function useShelf(kind: string): {
  readonly items: readonly Document<Body>[] | null;
  readonly loaded: Loaded<readonly Document<Body>[]>;
} {
  const loaded = useLoaded<readonly Document<Body>[]>(`${API}/documents?kind=${kind}`, { follow: true });
  return { items: loaded.value, loaded };
}

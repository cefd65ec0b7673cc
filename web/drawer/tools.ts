/** One thing of the drawer as its page works on it: read, changed, taken back. */
import type { DrawerView } from "../api/types.js";
import { Failed, post } from "../lib/api.js";
import { API, sayKept, useLoaded } from "../register/asking.js";
import type { Loaded } from "../register/asking.js";
import type { Unit } from "../parts/length.js";

/** What every section gets. */
export interface DrawerTools {
  readonly view: DrawerView;
  /** The unit a bare number is read in at first. */
  readonly units: Unit;
  /** Paths are those of the document; `null` takes out. `words` is the sentence of the history. */
  readonly keep: (values: Readonly<Record<string, unknown>>, words?: string) => Promise<void>;
  readonly back: () => Promise<void>;
  readonly forward: () => Promise<void>;
}

/** Where the studio answers for it. */
export function at(id: string): string {
  return `${API}/drawer/${encodeURIComponent(id)}`;
}

/** Reads it and offers to change it. */
export function useDrawer(id: string): { readonly loaded: Loaded<DrawerView>; readonly tools: DrawerTools | null } {
  const loaded = useLoaded<DrawerView>(at(id), { follow: true });
  const view = loaded.value;
  if (!view) return { loaded, tools: null };
  const changed = async (change: () => Promise<unknown>): Promise<void> => {
    try {
      await change();
      sayKept();
    } catch (error) {
      if (error instanceof Failed && error.kind === "changed") await loaded.again();
      throw error;
    }
    await loaded.again();
  };
  const tools: DrawerTools = {
    view,
    units: view.units === "in" ? "in" : "cm",
    keep: (values, words = "") =>
      changed(() =>
        post(`${API}/edits`, {
          parts: [{ document: id, base: view.item.revision }],
          changes: Object.entries(values).map(([path, value]) => ({ document: id, path, value })),
          words,
        }),
      ),
    back: () => changed(() => post(`${at(id)}/back`, {})),
    forward: () => changed(() => post(`${at(id)}/forward`, {})),
  };
  return { loaded, tools };
}

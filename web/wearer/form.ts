/** The computed body of a wearer, read once for all who draw it. */
import { useEffect, useState } from "preact/hooks";
import type { FormView, TapeView } from "../api/types.js";
import { get } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { API, problemOf } from "../register/asking.js";

/** The form last read, so that two sections that draw it ask once. */
let held: { readonly key: string; readonly form: Promise<FormView> } | null = null;

/** Reads the form when `key` changes; while the new one is on its way the old one stays. No form without both. */
export function useForm(wearer: string | null, key: string | null): { readonly form: FormView | null; readonly problem: Problem | null } {
  const [state, setState] = useState<{ readonly form: FormView | null; readonly problem: Problem | null }>({ form: null, problem: null });
  useEffect(() => {
    if (wearer === null || key === null) {
      setState({ form: null, problem: null });
      return;
    }
    let wanted = true;
    const name = `${wearer} ${key}`;
    if (held?.key !== name) held = { key: name, form: get<FormView>(`${API}/wearers/${encodeURIComponent(wearer)}/form`) };
    held.form.then(
      (form) => {
        if (wanted) setState({ form, problem: null });
      },
      (error: unknown) => {
        if (held?.key === name) held = null;
        if (wanted) setState((old) => ({ form: old.form, problem: problemOf(error) }));
      },
    );
    return () => {
      wanted = false;
    };
  }, [wearer, key]);
  return state;
}

/** A middling form of a sort of body, read while `sort` is given: it shows where the tape goes before hers can be computed. */
export function useMiddling(sort: string | null): FormView | null {
  const [form, setForm] = useState<FormView | null>(null);
  useEffect(() => {
    setForm(null);
    if (sort === null) return;
    const leave = new AbortController();
    get<FormView>(`${API}/forms/${encodeURIComponent(sort)}`, { signal: leave.signal }).then(setForm, () => undefined);
    return () => leave.abort();
  }, [sort]);
  return form;
}

/** Where to look from to see most of a tape, degrees: a girth from a little beside the front, the rest from its own side. */
export function turnFor(tape: TapeView | undefined): number {
  if (!tape) return 14;
  let [x, z, reach, count] = [0, 0, 0, 0];
  for (let i = 0; i + 2 < tape.points.length; i += 3) {
    const [px, pz] = [tape.points[i] ?? 0, tape.points[i + 2] ?? 0];
    x += px;
    z += pz;
    reach = Math.max(reach, Math.hypot(px, pz));
    count += 1;
  }
  if (count === 0) return 14;
  // A loop over shoulder and crotch shows its front part best from half to the side; a girth shows evenly from anywhere.
  if (tape.closed && isUpright(tape)) return 50;
  if (Math.hypot(x, z) / count < reach * 0.3) return 14;
  return Math.round((Math.atan2(x, z) * 180) / Math.PI);
}

function isUpright(tape: TapeView): boolean {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 1; i < tape.points.length; i += 3) {
    low = Math.min(low, tape.points[i] ?? low);
    high = Math.max(high, tape.points[i] ?? high);
  }
  return high - low > 250;
}

/** The computed body of the wearer, fetched anew when the studio says that it changed. */
import { useEffect, useState } from "preact/hooks";
import type { FormView } from "../api/types.js";
import { get, isAbort } from "../lib/api.js";
import { API } from "../order/studio.js";

/** The form, or null while there is none: no wearer, too few dimensions, not fetched yet. The old one stays until the new. */
export function useForm(wearer: string | null, key: string | null): FormView | null {
  const [form, setForm] = useState<FormView | null>(null);
  useEffect(() => {
    if (wearer === null || key === null) {
      setForm(null);
      return;
    }
    const asked = new AbortController();
    get<FormView>(`${API}/wearers/${encodeURIComponent(wearer)}/form`, { signal: asked.signal }).then(
      setForm,
      (error: unknown) => {
        // Without a form the ladder stands alone; section 1 says what is wrong with it.
        if (!isAbort(error)) setForm(null);
      },
    );
    return () => asked.abort();
  }, [wearer, key]);
  return form;
}

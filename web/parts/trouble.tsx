/** A fault beside the field it is about: what, where, what to do. Read out when it appears; what was typed is kept. */
import type { Problem } from "../lib/quantity.js";
import { Icon } from "./icon.js";

/** One problem, or nothing while there is none; the place stays, so that ears hear a change. */
export function Trouble({ problem, id }: { readonly problem: Problem | null; readonly id?: string }) {
  return (
    <div id={id} class="trouble" role="status" aria-live="polite">
      {problem && (
        <>
          <Icon name="doubtful" />
          <p>
            <b>{problem.what}</b>
            {problem.where !== undefined && <> {problem.where}</>}
            {problem.next !== undefined && <> {problem.next}</>}
          </p>
        </>
      )}
    </div>
  );
}

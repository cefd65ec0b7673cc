/** A proposal that is drawn in pencil: what it would do, then keep it or leave it. */
import { StateIcon } from "../parts/icon.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import type { OrderTools } from "./context.js";

/**
 * Stands where the proposal is drawn. With `isMain` it carries the ticket; elsewhere words do, because a page looks at one
 * proposal at a time and a section has one ticket.
 */
export function TriedHere({ tools, isMain = false }: { readonly tools: OrderTools; readonly isMain?: boolean }) {
  const tried = tools.tried.value;
  if (!tried) return null;
  const { preview, problem, proposal } = tried;
  const does = preview && preview.words !== "" ? preview.words : proposal.words;
  const keep = (): void => void tools.keepTried();
  return (
    <div class="tried" role="group" aria-label="Proposal">
      <StateIcon state="how" pencil says={preview ? `In pencil: ${does}.` : `${does}: being drawn.`} />
      <Trouble problem={problem} />
      <Acts>
        {preview && (isMain ? <Ticket onClick={keep}>Keep it</Ticket> : <Word onClick={keep}>Keep it</Word>)}
        <Word onClick={() => tools.leaveTried()}>Leave it</Word>
        {preview && <span class="small">Nothing is kept until you say so.</span>}
      </Acts>
    </div>
  );
}

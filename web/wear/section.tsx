/** Section 4, Wear: the stretch ladder beside the form, the squeeze, the way in, and proposals before they are kept. */
import { useState } from "preact/hooks";
import type { OrderTools } from "../order/context.js";
import { AskedFigure, WhyPlace } from "../order/asked.js";
import { inWords } from "../order/quantity.js";
import { TriedHere } from "../order/tried.js";
import { StateIcon } from "../parts/icon.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { useForm } from "../wearer/form.js";
import { Fitted, useFitting } from "./fitted.js";
import { Ladder } from "./ladder.js";

/** The body of the section. */
export function WearSection({ tools }: { readonly tools: OrderTools }) {
  const order = tools.order.value;
  const { wear } = order;
  const { form } = useForm(order.wearer.id, order.wearer.form_key);
  const [withSqueeze, setSqueeze] = useState(false);
  const tried = tools.tried.value;
  const then = tried?.preview?.wear ?? null;
  const proposal = wear.head.notes.find((note) => note.try_this !== null)?.try_this ?? null;
  const fitting = useFitting(tools);
  const hasFit = fitting.view.value?.fit?.is_current === true && fitting.view.value.fit.why_not === null;
  const knowsSqueeze = wear.rungs.some((rung) => rung.pressure !== null);
  const quick = (
    <>
      {wear.lead !== "" && <p class="lead">{wear.lead}</p>}
      {wear.rungs.length > 0 && (
        <WhyPlace tools={tools} name="wear-ladder">
          <Ladder tools={tools} wear={wear} then={then} form={form} withSqueeze={withSqueeze && knowsSqueeze} />
        </WhyPlace>
      )}
    </>
  );
  return (
    <>
      {hasFit && !tried ? (
        <>
          <p class="lead">{fitting.view.value?.fit?.lead}</p>
          <details class="more quickly">
            <summary>The quick judgement, level by level</summary>
            {quick}
          </details>
        </>
      ) : (
        quick
      )}
      {then && then.lead !== wear.lead && <p class="lead thenlead">With the proposal: {then.lead}</p>}
      <TriedHere tools={tools} isMain />
      {!tried && proposal && (
        <Acts>
          <Ticket onClick={() => tools.tryThis(proposal)}>{proposal.words}</Ticket>
          <span class="small">Draws it in pencil first. Nothing is kept until you say so.</span>
        </Acts>
      )}
      {wear.rungs.length > 0 && <Fitted tools={tools} fitting={fitting} hasTicket={tried !== null || proposal !== null} />}
      {wear.squeeze !== "" && !hasFit && (
        <div class="squeeze">
          <h3>The squeeze</h3>
          <p class="reading">{wear.squeeze}</p>
          {wear.caution !== "" && <p class="small reading">{wear.caution}</p>}
          {knowsSqueeze && (
            <Word onClick={() => setSqueeze(!withSqueeze)}>
              {withSqueeze ? "Leave the kPa out of the ladder" : "Show it on the ladder in kPa"}
            </Word>
          )}
        </div>
      )}
      {wear.way_in.length > 0 && (
        <div class="wayin">
          <h3>The way in</h3>
          <ul>
            {wear.way_in.map((way) => {
              const after = then?.way_in.find((one) => one.opening === way.opening);
              return (
                <li key={way.opening}>
                  <b>{way.opening}</b>
                  <span>
                    {way.says}{" "}
                    {after && after.share.main !== way.share.main && <small class="then">with the proposal {inWords(after.share)}</small>}
                  </span>
                  <span class="share">
                    <AskedFigure tools={tools} quantity={way.share} label={`why ${inWords(way.share)} at ${way.opening.toLowerCase()}?`} />
                  </span>
                  <StateIcon state={way.state} />
                </li>
              );
            })}
          </ul>
        </div>
      )}
    </>
  );
}

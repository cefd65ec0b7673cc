/** Which of her cloths can make it: every cloth of the workroom and every piece at hand, laid while she watches; a row is chosen to lay on it. */
import { useEffect, useRef } from "preact/hooks";
import { useSignal } from "@preact/signals";
import type { CanMakeView, FitsView, JobEvent, LaidCloth } from "../api/types.js";
import { Failed, get, post } from "../lib/api.js";
import { followJob, stopJob } from "../lib/job.js";
import type { Problem } from "../lib/quantity.js";
import { sectionState } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { suitAt } from "../order/studio.js";
import { Icon } from "../parts/icon.js";
import { Progress } from "../parts/progress.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";

interface Asking {
  readonly job: string;
  readonly says: string;
  readonly share: number;
}

/** The question and its answers. They stand until something of the suit changes. */
export function Cloths({ tools, cloth }: { readonly tools: OrderTools; readonly cloth: LaidCloth }) {
  const { suit, documents } = tools.order.value;
  const revision = documents.map((stamp) => `${stamp.id} ${stamp.revision}`).join();
  const answer = useSignal<{ readonly of: string; readonly view: FitsView } | null>(null);
  const asking = useSignal<Asking | null>(null);
  const said = useSignal("");
  const problem = useSignal<Problem | null>(null);
  const leave = useRef<() => void>(() => undefined);
  useEffect(() => () => leave.current(), []);
  const failed = (error: unknown): void => {
    problem.value = error instanceof Failed ? error.first : { what: "It could not be found out." };
  };
  const ended = async (event: JobEvent | null, of: string): Promise<void> => {
    try {
      if (event?.state === "done" && event.result !== null) answer.value = { of, view: await get<FitsView>(event.result) };
      else if (event?.state === "failed") problem.value = { what: event.says };
      else said.value = "Stopped; nothing was changed.";
    } catch (error) {
      failed(error);
    }
    asking.value = null;
  };
  const ask = async (): Promise<void> => {
    problem.value = null;
    said.value = "";
    answer.value = null;
    const of = revision;
    try {
      const { job } = await post<{ readonly job: string }>(suitAt(suit.id, `/lay/${cloth.layer}/fits`), {});
      asking.value = { job, says: "Laying it on each of your cloths", share: 0 };
      leave.current = followJob(job, {
        onStep: (event) => {
          asking.value = { job, says: event.says, share: event.share };
        },
        onEnd: (event) => void ended(event, of),
      });
    } catch (error) {
      failed(error);
    }
  };
  const now = asking.value;
  const view = answer.value?.view ?? null;
  const isOld = answer.value !== null && answer.value.of !== revision;
  return (
    <div class="mycloths">
      <h4>Which of my cloths can make it</h4>
      <Acts>
        <Word off={now !== null} onClick={() => void ask()}>
          {view ? "Ask again" : "Lay it on each of them"}
        </Word>
      </Acts>
      {now && <Progress says={now.says} share={now.share} onStop={() => void stopJob(now.job)} />}
      <div role="status" aria-live="polite">
        {said.value !== "" && !now && <p class="pencil">{said.value}</p>}
        {view && !now && (
          <p>
            <b>{view.says}</b> {isOld && <span class="small">Asked before something changed.</span>}
          </p>
        )}
      </div>
      {view && !now && (
        <ul class="canmake">
          {view.rows.map((row, i) => (
            <Row key={i} tools={tools} row={row} layer={cloth.layer} />
          ))}
        </ul>
      )}
      <Trouble problem={problem.value} />
    </div>
  );
}

function Row({ tools, row, layer }: { readonly tools: OrderTools; readonly row: CanMakeView; readonly layer: string }) {
  const state = sectionState(row.state);
  const name = row.piece === "" ? row.cloth : `${row.cloth}, ${row.piece}`;
  return (
    <li>
      <p>
        <span class={`stateword ${state}`}>
          <Icon name={state} /> {row.word}
        </span>{" "}
        <b>{name}</b> {row.from !== "" && <span class="small">{row.from}</span>}
      </p>
      <p class="small">
        {row.says} {row.change} {row.besides}
      </p>
      {row.is_chosen ? (
        <p class="small">Laid on this one.</p>
      ) : (
        row.choose.length > 0 && (
          <Word label={`Lay it on this: ${name}`} onClick={() => void tools.edit(row.choose, `laid the ${layer} on ${name}`)}>
            Lay it on this
          </Word>
        )
      )}
    </li>
  );
}

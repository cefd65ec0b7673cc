/** What was found of a worn suit, the worst first: each with its limit, what to do, and a change of the draft to be tried before it is taken. */
import type { FitView, WornFound, WornView } from "../api/types.js";
import type { OrderTools } from "../order/context.js";
import { Progress } from "../parts/progress.js";
import { StateIcon } from "../parts/icon.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { Changes, Compared } from "./compared.js";
import type { Fitting } from "./fitting.js";

/** All of them; what is in order is folded away where something is not. */
export function Findings({ tools, fitting, view, fit, onShow }: {
  readonly tools: OrderTools;
  readonly fitting: Fitting;
  readonly view: WornView;
  readonly fit: FitView;
  /** Marks the place of a finding on the form. */
  readonly onShow: (key: string) => void;
}) {
  const doubtful = fit.found.filter((one) => one.state !== "good");
  const good = fit.found.filter((one) => one.state === "good");
  const list = (all: readonly WornFound[]) => (
    <ul class="wornfound">
      {all.map((found) => (
        <FoundLine key={found.key} tools={tools} fitting={fitting} view={view} fit={fit} onShow={onShow} found={found} />
      ))}
    </ul>
  );
  return (
    <div class="foundof">
      <h4>{doubtful.length > 0 ? "To be looked at" : "Nothing to be looked at"}</h4>
      {doubtful.length > 0 && list(doubtful)}
      {good.length > 0 && (
        <details class="more">
          <summary>In order: {good.length}</summary>
          {list(good)}
        </details>
      )}
    </div>
  );
}

function FoundLine({ tools, fitting, view, fit, onShow, found }: {
  readonly tools: OrderTools;
  readonly fitting: Fitting;
  readonly view: WornView;
  readonly fit: FitView;
  /** Marks the place of a finding on the form. */
  readonly onShow: (key: string) => void;
  readonly found: WornFound;
}) {
  const work = fitting.work.value;
  const problem = fitting.problem.value;
  const isTrying = work?.kind === "try" && work.finding === found.key;
  const proposed = view.proposed?.kind === "try" && view.proposed.finding === found.key ? view.proposed : null;
  return (
    <li>
      <StateIcon state={found.state} />
      <div>
        <p>
          <b>{found.place}.</b> {found.says}
        </p>
        {found.limit !== "" && <p class="small">{found.limit}</p>}
        {found.next !== "" && <p>{found.next}</p>}
        {found.at !== null && (
          <Word label={`Show it on the form: ${found.place}`} onClick={() => onShow(found.key)}>
            Show it on the form
          </Word>
        )}
        {proposed ? (
          <Compared tools={tools} fitting={fitting} proposed={proposed} />
        ) : (
          found.changes.length > 0 && (
            <>
              <Changes changes={found.changes} />
              {isTrying ? (
                <Progress says={work.says} share={work.share} onStop={() => void fitting.stop()} />
              ) : (
                fit.is_current &&
                work === null && (
                  <Acts>
                    <Word label={`Try it: ${found.place}`} onClick={() => void fitting.tryOn(found.key)}>
                      Try it
                    </Word>
                  </Acts>
                )
              )}
            </>
          )
        )}
        {problem?.kind === "try" && fitting.tried.value === found.key && <Trouble problem={problem} />}
      </div>
    </li>
  );
}

/** Section 7, Paper: the page map, the printer's square, and everything that can be taken away. */
import { useEffect, useMemo } from "preact/hooks";
import type { FileView } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import type { OrderTools } from "../order/context.js";
import { ChoiceWords, FieldLine } from "../order/field.js";
import { suitAt } from "../order/studio.js";
import { Progress } from "../parts/progress.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { openJobs } from "./job.js";
import { PageMap } from "./map.js";

/** The body of the section. */
export function PaperSection({ tools }: { readonly tools: OrderTools }) {
  const { paper, suit } = tools.order.value;
  const first = paper.files.find((file) => file.is_first);
  const others = paper.files.filter((file) => file !== first);
  // Paper first; what only machines and programs read is folded away.
  const papers = others.filter((file) => file.name.endsWith(".pdf"));
  const rest = others.filter((file) => !papers.includes(file));
  return (
    <div class="two paperbody">
      <div>
        {paper.map ? (
          <>
            <PageMap map={paper.map} />
            <p class="small mapsays">
              {paper.map.pages} pages to print{paper.map.blank > 0 && `, ${paper.map.blank} blank left out`}.
            </p>
          </>
        ) : (
          <p class="lead">{paper.head.summary}</p>
        )}
      </div>
      <div>
        {paper.choices.map((choice) => (
          <ChoiceWords key={choice.path} tools={tools} choice={choice} />
        ))}
        <div class="fieldlines">
          {paper.fields.map((field) => (
            <FieldLine key={field.path} tools={tools} field={field} />
          ))}
        </div>
        {first && (
          <>
            <p class="reading firstfile">{unbroken(first.says)}</p>
            <Ticket
              href={first.href}
              onClick={(event) => {
                // The paper opens beside the order, which stays as it is.
                event.preventDefault();
                window.open(first.href, "_blank", "noopener");
              }}
            >
              {first.label}
            </Ticket>
          </>
        )}
        {others.length > 0 && (
          <ul class="files" aria-label="To take away">
            <Files files={papers} />
            {paper.map && (
              <li>
                <Word href={`/suits/${encodeURIComponent(suit.id)}/booklet`}>Booklet</Word>
                <p class="small">How to cut, prove, sew, try on and care for it; yours, or for a class with lines to fill in.</p>
              </li>
            )}
            {paper.map && (
              <li>
                <Word href={`/suits/${encodeURIComponent(suit.id)}/projector`}>Projector view</Word>
                <p class="small">Outlines at true size on the table, light on dark or dark on light.</p>
              </li>
            )}
            {paper.map && (
              <li>
                <Word href={`/suits/${encodeURIComponent(suit.id)}/shopping`}>Shopping list and quote</Word>
                <p class="small">What it takes, what is in stock, what it costs.</p>
              </li>
            )}
            {paper.map && (
              <li>
                <Word href={`/ranges?suit=${encodeURIComponent(suit.id)}`}>In sizes</Word>
                <p class="small">This cloth and design in every size of a table, nested.</p>
              </li>
            )}
          </ul>
        )}
        {paper.map && <Pack suit={suit.id} />}
        {rest.length > 0 && (
          <details class="more">
            <summary>For cutters and other programs</summary>
            <ul class="files" aria-label="For cutters and other programs">
              <Files files={rest} />
            </ul>
          </details>
        )}
      </div>
    </div>
  );
}

function Files({ files }: { readonly files: readonly FileView[] }) {
  return (
    <>
      {files.map((file) => (
        <li key={file.href}>
          <Word href={file.href} save={file.name}>
            {file.label}
          </Word>
          {file.says !== "" && <p class="small">{file.says}</p>}
        </li>
      ))}
    </>
  );
}

/** Everything in one folder, made by a job that can be stopped. */
function Pack({ suit }: { readonly suit: string }) {
  const jobs = useMemo(() => openJobs(`pack.${suit}`), [suit]);
  useEffect(() => () => jobs.leave(), [jobs]);
  const job = jobs.job.value;
  const isRunning = job?.state === "running";
  return (
    <div class="pack">
      <Acts>
        {!isRunning && (
          <Word onClick={() => void jobs.start(suitAt(suit, "/pack"))}>
            {job?.state === "done" ? "Make the folder again" : "Everything in one folder"}
          </Word>
        )}
        {job?.state === "done" && job.result !== null && (
          <Word href={job.result} save="">
            Take the folder
          </Word>
        )}
      </Acts>
      {isRunning && <Progress says={job.says} share={job.share} onStop={() => void jobs.stop()} />}
      <p class="pencil" role="status" aria-live="polite">
        {job?.state === "stopped" && "Stopped. Nothing was kept of it."}
        {job?.state === "done" && job.says}
      </p>
      <Trouble problem={jobs.problem.value ?? job?.problem ?? (job?.state === "failed" ? { what: job.says } : null)} />
    </div>
  );
}

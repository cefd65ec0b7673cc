/**
 * The computed fit: the suit put on its form by a job one can watch and stop, the result until the draft changes and after, what was found of
 * it, and what a change of the draft would do before it is taken.
 */
import { useSignal } from "@preact/signals";
import type { Signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import type { FitView, PutOnRequest, WornView } from "../api/types.js";
import { AskedFigure, WhyPlace } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { withUnit } from "../order/field.js";
import { Choice } from "../parts/choice.js";
import { LengthField } from "../parts/length.js";
import { Progress } from "../parts/progress.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { Compared } from "./compared.js";
import { Findings } from "./findings.js";
import { openFitting } from "./fitting.js";
import type { Fitting } from "./fitting.js";
import { OnForm } from "./on_form.js";

/** The fitting of the order on the page, kept as current as the order. */
export function useFitting(tools: OrderTools): Fitting {
  const { suit, documents } = tools.order.value;
  const fitting = useMemo(() => openFitting(suit.id, () => void tools.reload().catch(() => undefined)), [suit.id]);
  useEffect(() => () => fitting.close(), [fitting]);
  const stamps = documents.map((one) => `${one.id} ${one.revision}`).join(" ");
  useEffect(() => void fitting.read(), [fitting, stamps]);
  return fitting;
}

const USUAL: PutOnRequest = { scene: "standing", by: "", settled: false, friction: true, mesh: "usual" };

const SCENES = [
  { value: "standing", says: "Standing" },
  { value: "reach", says: "Reaching up" },
  { value: "breathe", says: "Breathing in" },
] as const;
const CLOTHS = [
  { value: "new", says: "New" },
  { value: "settled", says: "Settled" },
] as const;
const GRIPS = [
  { value: "grips", says: "It grips" },
  { value: "slides", says: "It slides" },
] as const;
const MESHES = [
  { value: "coarse", says: "Coarse, quick" },
  { value: "usual", says: "Usual" },
  { value: "fine", says: "Fine, slow" },
] as const;

/** `hasTicket`: the section has its ticket already. */
export function Fitted({ tools, fitting, hasTicket }: { readonly tools: OrderTools; readonly fitting: Fitting; readonly hasTicket: boolean }) {
  const view = fitting.view.value;
  const asked = useSignal<PutOnRequest | null>(null);
  /** The finding that is shown on the form. */
  const shownThere = useSignal<string | null>(null);
  if (view === null) {
    const problem = fitting.problem.value;
    return problem === null ? null : <Trouble problem={problem} />;
  }
  const { fit, proposed } = view;
  const request = asked.value ?? fit?.asked ?? USUAL;
  const work = fitting.work.value;
  const problem = fitting.problem.value;
  const isSame = fit !== null && fit.is_current && fit.is_of_workroom && sameAs(fit.asked, request);
  const isAsked = fit !== null && sameAs(fit.asked, request);
  const verb = fit === null ? "Put it on the form" : fit.is_current && !isAsked ? "Put it on so" : "Put it on again";
  const putOn = (): void => void fitting.putOn(request);
  const takes = proposed !== null && proposed.why_not === null && proposed.is_current;
  const lines = fitting.lines.value;
  return (
    <div class="fitted" id="wear-fitted">
      <h3>On the form</h3>
      {fit === null && work === null && (
        <p class="reading">
          The quick judgement goes level by level. Put on a form of her, the whole suit is solved: how it stretches where it curves, where it
          presses, stands off or slides.
        </p>
      )}
      {fit && !fit.is_current && (
        <p class="pencil older">This is version {fit.version}, an older draft: what is drafted now was not put on yet.</p>
      )}
      {fit && fit.is_current && !fit.is_of_workroom && (
        <p class="pencil older">The workroom was another when this was put on: how far seams reach was judged by what it had then.</p>
      )}
      {fit && fit.why_not !== null && (
        <div class="notsolved">
          <p>
            <b>No answer, and nothing drawn:</b> {fit.why_not}
          </p>
          <p class="small reading">The quick judgement still stands. Try it coarse or without grip, or change the draft where the notes say.</p>
        </div>
      )}
      {fit && fit.why_not === null && (
        <WhyPlace tools={tools} name="wear-solved">
          <OnForm tools={tools} fit={fit} lines={lines?.id === fit.id ? lines.lines : null} mark={fit.found.find((one) => one.key === shownThere.value) ?? null} />
        </WhyPlace>
      )}
      {view.cannot !== null && <p class="pencil">{view.cannot}</p>}
      {view.cannot === null && (
        <HowPutOn
          tools={tools}
          view={view}
          request={request}
          onRequest={(next) => {
            asked.value = next;
          }}
        />
      )}
      {work?.kind === "put_on" ? (
        <Progress says={work.says} share={work.share} onStop={() => void fitting.stop()} />
      ) : (
        view.cannot === null &&
        work === null &&
        !isSame && (
          <Acts>
            {hasTicket || takes ? <Word onClick={putOn}>{verb}</Word> : <Ticket onClick={putOn}>{verb}</Ticket>}
          </Acts>
        )
      )}
      <p class="pencil fitsaid" role="status" aria-live="polite">
        {work === null ? fitting.said.value : ""}
      </p>
      {problem?.kind === "put_on" && <Trouble problem={problem} />}
      {fit && fit.why_not === null && (
        <>
          <Squeeze tools={tools} fit={fit} />
          <Findings
            tools={tools}
            fitting={fitting}
            view={view}
            fit={fit}
            onShow={(key) => {
              shownThere.value = key;
            }}
          />
          <Better tools={tools} fitting={fitting} view={view} fit={fit} />
        </>
      )}
      {fit && <More suit={tools.order.value.suit.id} fit={fit} />}
    </div>
  );
}

function sameAs(a: PutOnRequest, b: PutOnRequest): boolean {
  return a.scene === b.scene && a.by === b.by && a.settled === b.settled && a.friction === b.friction && a.mesh === b.mesh;
}

/** How it is put on: folded, its words on the fold. */
function HowPutOn({ tools, view, request, onRequest }: {
  readonly tools: OrderTools;
  readonly view: WornView;
  readonly request: PutOnRequest;
  readonly onRequest: (request: PutOnRequest) => void;
}) {
  const typed: Signal<string> = useSignal(request.by);
  const scene = SCENES.find((one) => one.value === request.scene)?.says ?? request.scene;
  const words = [scene, request.settled ? "settled cloth" : "new cloth", request.friction ? "gripping" : "sliding", request.mesh === "usual" ? "" : request.mesh]
    .filter((word) => word !== "")
    .join(", ")
    .toLowerCase();
  const by = (text: string): void => {
    typed.value = text;
    onRequest({ ...request, by: withUnit(text, tools.units) ?? "" });
  };
  return (
    <details class="more howputon">
      <summary>How it is put on: {words}</summary>
      <Choice
        name="She is"
        options={SCENES}
        value={request.scene}
        onChange={(to) => onRequest({ ...request, scene: to, by: to === "standing" ? "" : request.by })}
      />
      {request.scene !== "standing" && (
        <LengthField
          label={request.scene === "reach" ? "Her trunk is longer by" : "Her ribs are wider by"}
          text={typed.value}
          unit={tools.units}
          hint={view.guesses[request.scene === "reach" ? 0 : 1]}
          onText={by}
        />
      )}
      <Choice name="The cloth is" options={CLOTHS} value={request.settled ? "settled" : "new"} onChange={(to) => onRequest({ ...request, settled: to === "settled" })} />
      <p class="small reading">Settled cloth stays longer by what its test did not go back.</p>
      <Choice name="Against the skin" options={GRIPS} value={request.friction ? "grips" : "slides"} onChange={(to) => onRequest({ ...request, friction: to === "grips" })} />
      <Choice name="Worked out" options={MESHES} value={request.mesh} onChange={(to) => onRequest({ ...request, mesh: to })} />
    </details>
  );
}

/** The caution, what is relative, straps and edges. */
function Squeeze({ tools, fit }: { readonly tools: OrderTools; readonly fit: FitView }) {
  return (
    <>
      {fit.relative !== "" && <p class="small reading">{fit.relative}</p>}
      {fit.caution !== "" && <p class="small reading">{fit.caution}</p>}
      {fit.edges.length > 0 && (
        <details class="more">
          <summary>Its edges{fit.straps === "" ? "" : " and straps"}</summary>
          <Table
            caption="Open edges as they are worn"
            rowKey={(row) => row.name}
            rows={fit.edges}
            columns={[
              { key: "edge", head: "Edge", cell: (row) => row.name },
              {
                key: "stretched",
                head: "Stretched",
                right: true,
                phone: "stretched",
                cell: (row) => <AskedFigure tools={tools} quantity={row.stretch} label={`why is ${row.name} stretched so far?`} />,
              },
              {
                key: "elastic",
                head: "Elastic pulls",
                right: true,
                phone: "pulls",
                cell: (row) => <AskedFigure tools={tools} quantity={row.elastic} label={`why does the elastic of ${row.name} pull so?`} />,
              },
              {
                key: "off",
                head: "Stands off",
                right: true,
                phone: "off",
                cell: (row) => <AskedFigure tools={tools} quantity={row.off} label={`why does ${row.name} stand off?`} />,
              },
            ]}
          />
          {fit.straps !== "" && <p>{fit.straps}</p>}
        </details>
      )}
    </>
  );
}

/** A better draft as a whole: looked for, compared, taken or left. */
function Better({ tools, fitting, view, fit }: {
  readonly tools: OrderTools;
  readonly fitting: Fitting;
  readonly view: WornView;
  readonly fit: FitView;
}) {
  const work = fitting.work.value;
  const problem = fitting.problem.value;
  const proposed = view.proposed?.kind === "better" ? view.proposed : null;
  return (
    <div class="better">
      <h4>A better draft</h4>
      {proposed ? (
        <Compared tools={tools} fitting={fitting} proposed={proposed} />
      ) : work?.kind === "better" ? (
        <Progress says={work.says} share={work.share} onStop={() => void fitting.stop()} />
      ) : (
        <>
          <p class="small reading">Tries the fit’s shares and the corrections for her figure, and looks which draft is worn nearest to what this one means.</p>
          {fit.is_current && work === null && (
            <Acts>
              <Word onClick={() => void fitting.better()}>Look for a better draft</Word>
            </Acts>
          )}
        </>
      )}
      {problem?.kind === "better" && <Trouble problem={problem} />}
    </div>
  );
}

/** What it rests on, how the form agrees, drawings, what is not judged. */
function More({ suit, fit }: { readonly suit: string; readonly fit: FitView }) {
  const first = fit.drawings[0];
  const shows = useSignal(first?.shows ?? "");
  const from = useSignal(first?.from ?? "");
  const drawing =
    fit.drawings.find((one) => one.shows === shows.value && one.from === from.value) ?? fit.drawings.find((one) => one.from === from.value) ?? first;
  const every = (of: (one: FitView["drawings"][number]) => string) => [...new Set(fit.drawings.map(of))].map((value) => ({ value, says: value }));
  const fields = every((one) => one.shows);
  return (
    <>
      {drawing && (
        <details class="more wornsheets">
          <summary>Drawn flat, to be printed</summary>
          {fields.length > 1 && (
            <Choice
              name="It shows"
              options={fields}
              value={drawing.shows}
              onChange={(to) => {
                shows.value = to;
              }}
            />
          )}
          <Choice
            name="Seen"
            options={every((one) => one.from)}
            value={drawing.from}
            onChange={(to) => {
              from.value = to;
            }}
          />
          <figure>
            <div class="sheetview" role="region" aria-label={`Drawing: ${drawing.shows}, ${drawing.from}`} tabIndex={0}>
              <img
                src={`/api/v1/suits/${encodeURIComponent(suit)}/worn/drawings/${encodeURIComponent(drawing.key)}?of=${encodeURIComponent(fit.id)}`}
                alt={`The suit on the form, ${drawing.shows.toLowerCase()}, ${drawing.from.toLowerCase()}; the figures are in the ladder above`}
              />
            </div>
          </figure>
        </details>
      )}
      <details class="more agrees">
        <summary>What it rests on</summary>
        <ul class="plainlist">
          {[...fit.rests_on, fit.how, ...fit.left_out].map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {fit.form.length > 0 && <p>The form is off her dimensions by:</p>}
        {fit.form.length > 0 && (
          <ul>
            {fit.form.map((one) => (
              <li key={one.name}>
                <span>{one.name}</span>
                <span aria-hidden="true">
                  {one.left.main} {one.left.unit}
                </span>
                <span class="heard">{one.left.spoken}</span>
              </li>
            ))}
          </ul>
        )}
        {fit.form_says !== "" && <p>{fit.form_says}</p>}
        {fit.not_judged.length > 0 && <p>Not judged:</p>}
        <ul class="plainlist">
          {fit.not_judged.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

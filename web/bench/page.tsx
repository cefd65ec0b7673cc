/**
 * The bench: one step at a time, read from a metre away with both hands full. One drawing, up to four settings, and "Sewn".
 * The step stands in the address, so that a reload stays at it; the screen is kept awake.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { PieceView, StepView } from "../api/types.js";
import { isField } from "../lib/keys.js";
import { go, place } from "../lib/router.js";
import { kept } from "../lib/store.js";
import { Nowhere } from "../frame/nowhere.js";
import { fieldId } from "../order/context.js";
import { useOrder } from "../order/page.js";
import { shown } from "../order/quantity.js";
import { useMmPerPixel } from "../order/scale.js";
import type { Order } from "../order/tools.js";
import { Figure } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { Trouble } from "../parts/trouble.js";
import { Ticket, Word } from "../parts/touch.js";
import { ElasticMap } from "../sew/elastic.js";
import { isDone, tick } from "../sew/section.js";
import { Piece, viewBox } from "../shape/piece.js";
import { useAwake } from "./awake.js";

/** The bench of one suit. */
export function BenchPage({ suit }: { readonly suit: string }) {
  const { order, problem, isGone } = useOrder(suit);
  if (order) return <Bench key={suit} order={order} />;
  if (problem && isGone) return <Nowhere says={problem.what} />;
  return (
    <main class="bench">
      <Trouble problem={problem} />
    </main>
  );
}

function Bench({ order }: { readonly order: Order }) {
  const { tools } = order;
  const { sew, suit, shape } = tools.order.value;
  const steps = sew.steps;
  const [at, setAt] = useState(() => start(steps, place.peek().hash, sew.now));
  const back = `/suits/${encodeURIComponent(suit.id)}#sew`;
  const step = at === null ? undefined : steps[at];
  useAwake();
  useEffect(() => {
    document.title = `At the bench: ${step?.title ?? "done"} · ${suit.name}`;
    const hash = step ? `#${encodeURIComponent(step.id)}` : "";
    history.replaceState(history.state, "", `${location.pathname}${hash}`);
  }, [step?.id, suit.name]);
  const heading = useRef<HTMLHeadingElement>(null);
  const to = (next: number | null): void => {
    setAt(next);
    requestAnimationFrame(() => heading.current?.focus({ preventScroll: true }));
    scrollTo(0, 0);
  };
  const following = (from: number): number | null => {
    const open = (i: number): boolean => {
      const one = steps[i];
      return one !== undefined && i !== from && !isDone(tools, one);
    };
    for (let i = from + 1; i < steps.length; i += 1) if (open(i)) return i;
    for (let i = 0; i < from; i += 1) if (open(i)) return i;
    return null;
  };
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || isField(event.target)) return;
      if (event.key === "ArrowLeft" && at !== null && at > 0) to(at - 1);
      else if (event.key === "ArrowRight" && at !== null && at < steps.length - 1) to(at + 1);
      else if (event.key === "Escape") go(back);
      else return;
      event.preventDefault();
    };
    document.addEventListener("keydown", key);
    return () => document.removeEventListener("keydown", key);
  }, [at, steps.length]);

  if (!step || at === null) {
    return (
      <main class="bench done">
        <Top name={suit.name} back={back} says={`${steps.length} of ${steps.length}`} />
        <h1 ref={heading} tabIndex={-1}>
          {steps.length === 0 ? "Nothing to sew yet" : "All sewn"}
        </h1>
        <p class="how">{steps.length === 0 ? sew.head.summary : "Try it on: dry first, then wet."}</p>
        <div class="go">
          {steps.length > 0 && <Word onClick={() => to(steps.length - 1)}>Back</Word>}
          <Ticket big href={steps.length === 0 ? back : `/suits/${encodeURIComponent(suit.id)}#try-on`}>
            {steps.length === 0 ? "Back to the order" : "To the try-on"}
          </Ticket>
        </div>
      </main>
    );
  }
  const edge = step.edge === null ? undefined : sew.edges.find((one) => one.key === step.edge);
  const pieces = step.pieces.flatMap((key) => shape.pieces.find((piece) => piece.key === key) ?? []);
  const done = isDone(tools, step);
  const sewn = async (): Promise<void> => {
    const next = following(at);
    if (await tick(tools, step, true)) to(next);
  };
  return (
    <main class="bench">
      <Top name={suit.name} back={back} says={`Step ${at + 1} of ${steps.length}`} />
      <div class="task">
        <h1 ref={heading} tabIndex={-1}>
          {step.title}
        </h1>
        {pieces.length > 0 && <Pieces pieces={pieces} hot={step.hot} isSmall={edge !== undefined} />}
        <p class="how">{step.says}</p>
      </div>
      {edge && <ElasticMap edge={edge} big />}
      {step.settings.length > 0 && (
        <dl class="settings">
          {step.settings.slice(0, 4).map((setting) => (
            <div key={setting.name}>
              <dt>{setting.name}</dt>
              <dd>
                <Figure quantity={shown(setting.value)} />
                {setting.value.second !== "" && <small class="second"> {setting.value.second}</small>}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {step.caution !== "" && (
        <p class="benchnote">
          <Icon name="doubtful" />
          <span>{step.caution}</span>
        </p>
      )}
      <div class="troubles">
        <Trouble problem={tools.troubles.value.get(fieldId(`sewn.${step.id}`)) ?? null} />
      </div>
      <div class="go">
        <Word off={at === 0} onClick={() => to(at - 1)}>
          Back
        </Word>
        {done ? (
          <Ticket big onClick={() => to(following(at))}>
            Done; go on
          </Ticket>
        ) : (
          <Ticket big onClick={() => void sewn()}>
            {step.group === "join" || step.group === "elastic" ? "Sewn" : "Done"}
          </Ticket>
        )}
        {done ? (
          <Word onClick={() => void tick(tools, step, false)}>Not done after all</Word>
        ) : (
          <Word onClick={() => to(at < steps.length - 1 ? at + 1 : following(at))}>Skip for now</Word>
        )}
      </div>
    </main>
  );
}

/** The step of the address, else the one at hand. */
function start(steps: readonly StepView[], hash: string, now: number | null): number | null {
  const named = steps.findIndex((step) => step.id === hash);
  return named >= 0 ? named : now;
}

function Top({ name, back, says }: { readonly name: string; readonly back: string; readonly says: string }) {
  return (
    <div class="top">
      <a href={back}>
        <span class="heard">Back to the order: </span>
        {name}
      </a>
      <span class="pencil" role="status" aria-live="polite">
        {kept.value}
      </span>
      <span>{says}</span>
    </div>
  );
}

/** The pieces in hand, at one scale, the edges they are about drawn hot and named below. */
function Pieces({ pieces, hot, isSmall }: {
  readonly pieces: readonly PieceView[];
  readonly hot: readonly string[];
  readonly isSmall: boolean;
}) {
  return (
    <figure class={isSmall ? "handpieces small" : "handpieces"}>
      {pieces.slice(0, isSmall ? 1 : 2).map((piece) => (
        <InHand key={piece.key} piece={piece} hot={hot} />
      ))}
      {hot.length > 0 && <figcaption>{hot.map((name) => name.replaceAll("_", " ")).join(", ")}</figcaption>}
    </figure>
  );
}

function InHand({ piece, hot }: { readonly piece: PieceView; readonly hot: readonly string[] }) {
  const drawing = useRef<SVGSVGElement>(null);
  const px = useMmPerPixel(drawing, piece.frame.width + 16, piece.frame.height + 16);
  return (
    <svg ref={drawing} viewBox={viewBox(piece.frame, 8)} role="img" aria-label={piece.name}>
      <Piece piece={piece} px={px} plain />
      {piece.edges.filter((edge) => hot.includes(edge.name)).map((edge) => (
        <path key={edge.name} class="k-hot" d={edge.path} vector-effect="non-scaling-stroke" />
      ))}
    </svg>
  );
}

/**
 * The bench: one step at a time, read from a metre away with both hands full. One drawing, up to four settings, and "Sewn".
 * The step stands in the address, so that a reload stays at it; the screen is kept awake.
 */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { StepView } from "../api/types.js";
import { isField } from "../lib/keys.js";
import { unbroken } from "../lib/quantity.js";
import { go, place } from "../lib/router.js";
import { kept } from "../lib/store.js";
import { Nowhere } from "../frame/nowhere.js";
import { fieldId } from "../order/context.js";
import { useOrder } from "../order/page.js";
import { shown } from "../order/quantity.js";
import type { Order } from "../order/tools.js";
import { Figure } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import type { IconName } from "../parts/icon.js";
import { Trouble } from "../parts/trouble.js";
import { Ticket, Word } from "../parts/touch.js";
import { ElasticMap } from "../sew/elastic.js";
import { Hands } from "../sew/hands.js";
import { isDone, tick } from "../sew/work.js";
import { useAwake } from "./awake.js";

/** Settings one takes in at a glance. */
const MOST_SETTINGS = 4;
/** Pieces that are told apart at a metre; beside a ruler there is room for one. */
const MOST_PIECES = 2;

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
  // Before the step is painted: whoever sees it can reload and is at it.
  useLayoutEffect(() => {
    document.title = `At the bench: ${step?.title ?? "done"} · ${suit.name}`;
    const hash = step ? `#${encodeURIComponent(step.id)}` : "";
    history.replaceState(history.state, "", `${location.pathname}${hash}`);
  }, [step?.id, suit.name]);
  const heading = useRef<HTMLHeadingElement>(null);
  const ticket = useRef<HTMLDivElement>(null);
  /** The step shown, known at once: the next key may come before the page is drawn again. */
  const here = useRef(at);
  const to = (next: number | null): void => {
    here.current = next;
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
      const now = here.current;
      if (event.key === "ArrowLeft" && now !== null && now > 0) to(now - 1);
      else if (event.key === "ArrowRight" && now !== null && now < steps.length - 1) to(now + 1);
      else if (event.key === "Enter" && !isPressed(event.target)) ticket.current?.querySelector<HTMLElement>(".ticket")?.click();
      else if (event.key === "Escape") go(back);
      else return;
      event.preventDefault();
    };
    document.addEventListener("keydown", key);
    return () => document.removeEventListener("keydown", key);
  }, [steps.length]);

  if (!step || at === null) {
    return (
      <main class="bench done">
        <Top name={suit.name} back={back} says={`${steps.length} of ${steps.length}`} />
        <h1 ref={heading} tabIndex={-1}>
          {steps.length === 0 ? "Nothing to sew yet" : "All sewn"}
        </h1>
        <p class="how">{steps.length === 0 ? sew.head.summary : "Try it on: dry first, then wet."}</p>
        <div ref={ticket} class="go">
          {steps.length > 0 && <Word onClick={() => to(steps.length - 1)}>Back</Word>}
          <Ticket big href={steps.length === 0 ? back : `/suits/${encodeURIComponent(suit.id)}#try-on`}>
            {steps.length === 0 ? "Back to the order" : "To the try-on"}
          </Ticket>
        </div>
      </main>
    );
  }
  const edges = step.edges.flatMap((key) => sew.edges.find((one) => one.key === key) ?? []);
  const done = isDone(tools, step);
  const sewn = async (): Promise<void> => {
    const next = following(at);
    if (await tick(tools, step, true)) to(next);
  };
  return (
    <main class="bench">
      <Top name={suit.name} back={back} says={`${step.machine === "" ? "" : `${step.machine}. `}Step ${at + 1} of ${steps.length}`} />
      <div class={step.hands.length > 0 ? "task" : "task bare"}>
        <h1 ref={heading} tabIndex={-1}>
          {step.title}
        </h1>
        <Hands step={step} pieces={shape.pieces} most={edges.length > 0 ? 1 : MOST_PIECES} />
        <div class="how">
          <p>
            {step.side !== "" && <strong>{step.side} </strong>}
            {unbroken(step.says)}
          </p>
          {step.notes.length > 0 && <p class="mind">{unbroken(step.notes.join(" "))}</p>}
        </div>
      </div>
      {(step.stop.length > 0 || step.cautions.length > 0) && (
        <div class="benchnotes">
          {step.stop.length > 0 && <Heed key="stop" icon="stop" says={step.stop.join(" ")} />}
          {step.cautions.map((caution) => (
            <Heed key={caution} icon="doubtful" says={caution} />
          ))}
        </div>
      )}
      {edges.map((edge) => (
        <ElasticMap key={edge.key} edge={edge} big />
      ))}
      {step.settings.length > 0 && (
        <dl class="settings">
          {step.settings.slice(0, MOST_SETTINGS).map((setting, i) => (
            <div key={`${setting.name} ${i}`}>
              <dt>{setting.name}</dt>
              <dd class={setting.value.unit === "" && setting.value.main.length > 12 ? "inwords" : ""}>
                <Figure quantity={shown(setting.value)} />
                {setting.value.second !== "" && <small class="second"> {setting.value.second}</small>}
                {setting.note !== "" && <small class="fine"> {unbroken(setting.note)}</small>}
              </dd>
            </div>
          ))}
        </dl>
      )}
      <div class="troubles">
        <Trouble problem={tools.troubles.value.get(fieldId(`sewn.${step.id}`)) ?? null} />
      </div>
      <div ref={ticket} class="go">
        <Word off={at === 0} onClick={() => to(at - 1)}>
          Back
        </Word>
        {done ? (
          <Ticket big onClick={() => to(following(at))}>
            Done; go on
          </Ticket>
        ) : (
          <Ticket big onClick={() => void sewn()}>
            {step.is_sewn ? "Sewn" : "Done"}
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

/** Whether Enter there is a press of its own. */
function isPressed(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("a, button, summary, label") !== null;
}

/** The step of the address, else the one at hand. */
function start(steps: readonly StepView[], hash: string, now: number | null): number | null {
  const named = steps.findIndex((step) => step.id === hash);
  return named >= 0 ? named : now;
}

/** A caution: its first words to be read at a metre, the rest when it is opened. */
function Heed({ icon, says }: { readonly icon: IconName; readonly says: string }) {
  const end = says.search(/[.:;] /);
  const [first, rest] = end < 0 ? [says, ""] : [`${says.slice(0, end)}.`, `${says.charAt(end + 2).toUpperCase()}${says.slice(end + 3)}`];
  return (
    <div class={`benchnote ${icon}`}>
      <Icon name={icon} />
      {rest === "" ? (
        <p>{first}</p>
      ) : (
        <details>
          <summary>
            {first} <span class="moreword">More</span>
          </summary>
          <p>{rest}</p>
        </details>
      )}
    </div>
  );
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

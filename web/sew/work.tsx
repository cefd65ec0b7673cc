/** The order of work: steps by part and machine, each with its tick, opened one at a time; around the step at hand, or all. */
import { useState } from "preact/hooks";
import type { StepView } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { Steps } from "../parts/steps.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { StepDetail } from "./step.js";

/** Steps shown before the one at hand and after it. */
const BEFORE = 2;
const AFTER = 4;

/** Whether a step is ticked, a tick on its way counted. */
export function isDone(tools: OrderTools, step: StepView): boolean {
  const waits = tools.waiting(tools.order.value.suit.id, `sewn.${step.id}`);
  return waits === undefined ? step.done : waits === true;
}

/** Ticks a step or takes the tick off. */
export function tick(tools: OrderTools, step: StepView, done: boolean): Promise<boolean> {
  return tools.edit(
    [{ document: tools.order.peek().suit.id, path: `sewn.${step.id}`, value: done ? true : null }],
    `${step.title}: ${done ? "done" : "not done"}`,
  );
}

interface Numbered {
  readonly step: StepView;
  readonly n: number;
}

/** Steps that follow each other on one machine. */
interface Group {
  readonly machine: string;
  /** Parts of the work they belong to. */
  readonly phases: readonly string[];
  readonly steps: readonly Numbered[];
}

/** Runs of steps by what `key` says of them. */
function runs(steps: readonly Numbered[], key: (step: StepView) => string): readonly (readonly Numbered[])[] {
  const found: Numbered[][] = [];
  for (const one of steps) {
    const last = found.at(-1);
    if (last?.[0] && key(last[0].step) === key(one.step)) last.push(one);
    else found.push([one]);
  }
  return found;
}

/** By machine, then by part; parts that take turns on one machine, as shell and lining do, stay together. */
function grouped(steps: readonly Numbered[]): readonly Group[] {
  return runs(steps, (step) => step.machine).flatMap((run) => {
    const parts = runs(run, (step) => step.phase);
    const phases = [...new Set(run.map(({ step }) => step.phase))];
    const takesTurns = parts.length > phases.length;
    return (takesTurns ? [run] : parts).map((part) => ({
      machine: part[0]?.step.machine ?? "",
      phases: takesTurns ? phases : phases.filter((phase) => phase === part[0]?.step.phase),
      steps: part,
    }));
  });
}

/** `Lining, join the shell`. */
function titled(phases: readonly string[]): string {
  return phases.map((phase, i) => (i === 0 ? phase : `${phase.charAt(0).toLowerCase()}${phase.slice(1)}`)).join(", ");
}

/** The order of work with its ticket. */
export function Work({ tools }: { readonly tools: OrderTools }) {
  const { sew, suit } = tools.order.value;
  const [all, setAll] = useState(false);
  /** What she opened, or closed; the step at hand opens by itself. */
  const [opened, setOpened] = useState<ReadonlyMap<string, boolean>>(new Map());
  const numbered = sew.steps.map((step, i) => ({ step, n: i + 1 }));
  const waiting = numbered.find(({ step }) => !isDone(tools, step));
  const now = waiting ? waiting.n : null;
  const at = (now ?? sew.steps.length) - 1;
  const from = Math.max(0, Math.min(at - BEFORE, sew.steps.length - BEFORE - AFTER - 1));
  const part = all ? numbered : numbered.slice(from, from + BEFORE + AFTER + 1);
  const trouble = sew.steps.flatMap((step) => tools.troubles.value.get(fieldId(`sewn.${step.id}`)) ?? [])[0];
  return (
    <>
      <h3 id={fieldId("sewn")}>Order of work</h3>
      <p class="small">{sew.time}</p>
      {grouped(part).map((group) => {
        const first = group.steps[0];
        if (!first) return null;
        const phase = titled(group.phases);
        const name = group.machine === "" ? phase : `${phase}, ${group.machine}`;
        return (
          <div key={`${first.step.id}`} class="workgroup">
            <h4>
              <span>{phase}</span> <small>{group.machine === "" ? "by hand" : group.machine}</small>
            </h4>
            <Steps
              name={name}
              now={now}
              steps={group.steps.map(({ step, n }) => {
                const isOpen = opened.get(step.id) ?? n === now;
                return {
                  n,
                  says: step.title,
                  machine: stitchOf(tools, step),
                  done: isDone(tools, step),
                  beside: (
                    <Word expanded={isOpen} onClick={() => setOpened(new Map(opened).set(step.id, !isOpen))}>
                      {isOpen ? "Close" : "Open"}
                      <span class="heard"> step {n}: {step.title}</span>
                    </Word>
                  ),
                  below: isOpen ? <StepDetail tools={tools} step={step} n={n} /> : null,
                };
              })}
              onTick={(n, done) => {
                const step = sew.steps[n - 1];
                if (step) void tick(tools, step, done);
              }}
            />
          </div>
        );
      })}
      <Trouble problem={trouble ?? null} />
      <Acts>
        <Ticket href={`/suits/${encodeURIComponent(suit.id)}/bench`}>Take it to the bench</Ticket>
        {part.length < sew.steps.length || all ? (
          <Word expanded={all} onClick={() => setAll(!all)}>
            {all ? "Only the steps at hand" : `All ${sew.steps.length} steps`}
          </Word>
        ) : null}
      </Acts>
    </>
  );
}

/** The stitch of a step, in a word. */
function stitchOf(tools: OrderTools, step: StepView): string {
  return step.stitch === null ? "" : (tools.order.value.sew.stitches[step.stitch]?.stitch ?? "");
}

/** Section 6, Sew: the elastic of each edge as a map, what to buy, and the order of work with its ticks. */
import { useState } from "preact/hooks";
import type { StepView } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { shown } from "../order/quantity.js";
import { Figure, Second } from "../parts/figure.js";
import { StateIcon } from "../parts/icon.js";
import { Steps } from "../parts/steps.js";
import { Table } from "../parts/table.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { ElasticMap } from "./elastic.js";

/** Steps shown before the one at hand and after it. */
const BEFORE = 2;
const AFTER = 3;

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

/** The body of the section. */
export function SewSection({ tools }: { readonly tools: OrderTools }) {
  const { sew } = tools.order.value;
  const mirrored = sew.edges.flatMap((edge) => edge.arcs).find((arc) => arc.letter.endsWith("′"))?.letter;
  return (
    <>
      {sew.edges.length > 0 && (
        <p class="reading">
          Above, the edge of the suit. Below, the elastic. Upright strokes are flat; strokes that lean together are ease.
          {mirrored !== undefined &&
            ` Letters are those on the pieces; ${mirrored} is mark ${mirrored.slice(0, -1)} on the other side of the body.`}
        </p>
      )}
      {sew.edges.map((edge) => (
        <div key={edge.key} class="edge" id={`edge-${edge.key}`}>
          <h3>
            <span>
              Elastic map: {edge.name.charAt(0).toLowerCase()}
              {edge.name.slice(1)}
            </span>{" "}
            {edge.state !== "good" && <StateIcon state={edge.state} />}
          </h3>
          <ElasticMap edge={edge} />
          <p class="cutsays">
            <span>
              {unbroken(edge.says)} {edge.join}
            </span>
            <span class="cutwhy">
              <AskedFigure tools={tools} quantity={edge.cut} label={`why cut the ${edge.name.toLowerCase()} so long?`} />{" "}
              <Second quantity={shown(edge.cut)} />
            </span>
          </p>
        </div>
      ))}
      {sew.to_buy.length > 0 && (
        <>
          <h3>Elastic to buy</h3>
          <Table
            caption="Elastic to buy"
            rowKey={(row) => row.what}
            rows={sew.to_buy}
            columns={[
              { key: "what", head: "Elastic", cell: (row) => row.what },
              {
                key: "needed",
                head: "Needed",
                right: true,
                phone: "needed",
                cell: (row) => <AskedFigure tools={tools} quantity={row.needed} label={`why so much ${row.what}?`} />,
              },
              {
                key: "hand",
                head: "In hand",
                right: true,
                phone: "in hand",
                cell: (row) => (row.in_hand ? <Figure quantity={shown(row.in_hand)} /> : "not written"),
              },
              {
                key: "buy",
                head: "To buy",
                right: true,
                phone: "to buy",
                cell: (row) => <Figure quantity={shown(row.to_buy)} />,
              },
            ]}
          />
        </>
      )}
      {sew.steps.length > 0 && <Work tools={tools} />}
    </>
  );
}

/** The order of work around the step at hand, or all of it. */
function Work({ tools }: { readonly tools: OrderTools }) {
  const { sew, suit } = tools.order.value;
  const [all, setAll] = useState(false);
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
      <Steps
        name="Order of work"
        now={now}
        steps={part.map(({ step, n }) => ({ n, says: step.title, machine: step.group, done: isDone(tools, step) }))}
        onTick={(n, done) => {
          const step = sew.steps[n - 1];
          if (step) void tick(tools, step, done);
        }}
      />
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

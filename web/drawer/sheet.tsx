/** The change sheet of a bought pattern: the verdict, the changes on the piece, a table of them, what the stretch means. */
import { useState } from "preact/hooks";
import type { ChangeLine, ChangeSheetView, Quantity, SheetView, Why } from "../api/types.js";
import { Section } from "../frame/section.js";
import { post } from "../lib/api.js";
import { go } from "../lib/router.js";
import { sectionState } from "../order/context.js";
import { asReason, shown } from "../order/quantity.js";
import { Figure, Second } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { Progress } from "../parts/progress.js";
import { Ask } from "../parts/slip.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useLoaded, useTrying } from "../register/asking.js";
import { Waits, WaitsFor } from "./copy.js";
import { Drawn } from "./drawn.js";
import { notes } from "./page.js";
import { at } from "./tools.js";
import type { DrawerTools } from "./tools.js";

/** The section of the result. */
export function SheetSection({ tools, n }: { readonly tools: DrawerTools; readonly n: number }) {
  const { view } = tools;
  const [anyway, setAnyway] = useState(false);
  const wants = anyway || view.waits_for.length === 0;
  const { id, revision } = view.item;
  const loaded = useLoaded<SheetView>(wants ? `${at(id)}/sheet?of=${revision}` : null, { follow: true });
  const found = loaded.value;
  const state = !wants ? ("missing" as const) : found ? sectionState(found.head.state) : ("good" as const);
  return (
    <Section
      open
      id="result"
      n={n}
      name="Change sheet"
      state={state}
      summary={found ? (found.sheet ? heads[found.sheet.verdict] ?? "" : found.head.summary) : "Not everything is there yet."}
      {...(found ? notes(found.head) : {})}
    >
      {!wants && <WaitsFor of={view.waits_for} onAnyway={() => setAnyway(true)} />}
      {wants && !found && !loaded.problem && <Progress says="Making the sheet" share={null} />}
      <Trouble problem={loaded.problem} />
      {found && !found.sheet && (
        <>
          <p class="lead">It cannot be made yet.</p>
          <Waits of={found.head.notes.map((note) => `${note.says} ${note.next}`.trim())} />
        </>
      )}
      {found?.sheet && (
        <>
          <ChangeSheet sheet={found.sheet} canAsk />
          <Go tools={tools} sheet={found.sheet} />
        </>
      )}
    </Section>
  );
}

const heads: Readonly<Record<string, string>> = {
  adapt: "Worth adapting.",
  another_size: "Another size comes first.",
  redraft: "A draft of your own is less work.",
};

/** The sheet itself; on paper nothing can be asked. */
export function ChangeSheet({ sheet, canAsk }: { readonly sheet: ChangeSheetView; readonly canAsk: boolean }) {
  // Alone on its page the sheet's parts stand right below its title.
  const Heading = canAsk ? ("h3" as const) : ("h2" as const);
  const ask = (why: Why, quantity: Quantity) =>
    canAsk ? (
      <Ask label={why.question.replace(/^Why/, "why")} why={asReason(why)}>
        <Figure quantity={shown(quantity)} />
      </Ask>
    ) : (
      <Figure quantity={shown(quantity)} />
    );
  const both = (why: Why, quantity: Quantity) => (
    <>
      {ask(why, quantity)} <Second quantity={shown(quantity)} />
    </>
  );
  return (
    <>
      <div class={`verdict ${sheet.verdict}`}>
        <p class="lead">
          <Icon name={sheet.verdict === "adapt" ? "good" : sheet.verdict === "redraft" ? "stop" : "doubtful"} />
          {sheet.says}
        </p>
        {sheet.next !== "" && <p class="reading">{sheet.next}</p>}
      </div>
      <div class="two tables">
        {sheet.sides.map((side) => (
          <figure key={side.key}>
            <Drawn side={side} label={`${side.name} with the lines on which it changes; the table says the same.`} />
            <figcaption class="small">{side.name}, net</figcaption>
          </figure>
        ))}
      </div>
      <Heading>Widths</Heading>
      <Table<ChangeLine>
        caption="Changes of width: each quarter"
        columns={[
          { key: "name", head: "Level", cell: (row) => <Named row={row} /> },
          { key: "paper", head: "Paper, round", right: true, phone: "paper", cell: (row) => row.paper && <Figure quantity={shown(row.paper)} /> },
          { key: "wanted", head: "Wanted", right: true, phone: "wanted", cell: (row) => row.wanted && <Figure quantity={shown(row.wanted)} /> },
          { key: "change", head: "Each quarter", right: true, phone: "each quarter", cell: (row) => both(row.why, row.change) },
          { key: "place", head: "Where", wideOnly: true, cell: (row) => row.place },
        ]}
        rows={sheet.widths}
        rowKey={(row) => row.name}
      />
      {sheet.lengths.length > 0 && (
        <>
          <Heading>Lengths</Heading>
          <Table<ChangeLine>
            caption="Changes of length, on each line"
            columns={[
              { key: "name", head: "Line", cell: (row) => <Named row={row} /> },
              { key: "front", head: "Front", right: true, phone: "front", cell: (row) => both(row.why, row.change) },
              {
                key: "back",
                head: "Back",
                right: true,
                phone: "back",
                cell: (row) =>
                  row.back && (
                    <>
                      <Figure quantity={shown(row.back)} /> <Second quantity={shown(row.back)} />
                    </>
                  ),
              },
              { key: "place", head: "Where", wideOnly: true, cell: (row) => row.place },
            ]}
            rows={sheet.lengths}
            rowKey={(row) => row.name}
          />
          {canAsk && (
            <ul class="needs">
              {sheet.needs.map((need) => (
                <li key={need.name}>
                  {need.name}: {need.paper && <Figure quantity={shown(need.paper)} />} on the paper,{" "}
                  {need.wanted && <Figure quantity={shown(need.wanted)} />} wanted, {ask(need.why, need.change)}.
                </li>
              ))}
            </ul>
          )}
        </>
      )}
      {sheet.stretch && (
        <>
          <Heading>What the stretch means</Heading>
          <p class="reading">{sheet.stretch.says}</p>
          {canAsk && (
            <ul class="plainlist">
              {sheet.stretch.levels.map((says) => (
                <li key={says}>{says}.</li>
              ))}
            </ul>
          )}
        </>
      )}
      {canAsk && sheet.sizes.length > 0 && (
        <>
          <Heading>Other sizes</Heading>
          <ul class="plainlist">
            {sheet.sizes.map((size) => (
              <li key={size.name}>
                <b>Size {size.name}</b>, each quarter: {size.says}. {size.is_within ? "Within an adaptation." : "Too far off."}
              </li>
            ))}
          </ul>
        </>
      )}
      {sheet.truing.length > 0 && (
        <>
          <Heading>True afterwards, in this order</Heading>
          <ol class="truing">
            {sheet.truing.map((step) => (
              <li key={step.place}>
                <b>{step.place}.</b> {step.what}
              </li>
            ))}
          </ol>
        </>
      )}
    </>
  );
}

function Named({ row }: { readonly row: ChangeLine }) {
  return (
    <span class="metname">
      {row.is_over && <Icon name="doubtful" />}
      {row.is_over && <span class="heard">More than an adaptation: </span>}
      {row.name}
    </span>
  );
}

function Go({ tools, sheet }: { readonly tools: DrawerTools; readonly sheet: ChangeSheetView }) {
  const trying = useTrying();
  const { id } = tools.view.item;
  const redraft = (): void =>
    void trying.run(async () => {
      const made = await post<{ readonly id: string }>(`${at(id)}/suit`, {});
      go(`/suits/${encodeURIComponent(made.id)}`);
    });
  const print = `/drawer/${encodeURIComponent(id)}/sheet`;
  const isWorth = sheet.verdict !== "redraft";
  return (
    <div class="making">
      <Trouble problem={trying.problem} />
      <Acts>
        {isWorth ? <Ticket href={print}>Print the sheet</Ticket> : <Ticket off={trying.busy} onClick={redraft}>Redraft instead</Ticket>}
        {isWorth ? <Word onClick={redraft}>Redraft instead</Word> : <Word href={print}>Print the sheet all the same</Word>}
      </Acts>
      <p class="small">Nothing here has been proved by sewing: sew a toile first.</p>
    </div>
  );
}

/** What to buy for a suit, what it costs, and a quote for a client: to be looked at, printed, or taken along as PDF. */
import { useMemo } from "preact/hooks";
import type { BuyLineView, QuoteView, ShoppingView } from "../api/types.js";
import { Note } from "../frame/margin.js";
import { Section } from "../frame/section.js";
import { unbroken } from "../lib/quantity.js";
import { sectionState } from "../order/context.js";
import { inWords, shown } from "../order/quantity.js";
import { Figure, Second } from "../parts/figure.js";
import { Table } from "../parts/table.js";
import { Acts, Word } from "../parts/touch.js";
import { API, useLoaded } from "../register/asking.js";
import { Page, Waiting } from "../register/shell.js";

/** `/suits/:suit/shopping`. */
export function ShoppingPage({ suit }: { readonly suit: string }) {
  const at = `${API}/suits/${encodeURIComponent(suit)}`;
  const loaded = useLoaded<ShoppingView>(`${at}/shopping`, { follow: true });
  const view = loaded.value;
  const state = view ? sectionState(view.head.state) : "good";
  const hasQuote = view?.list.quote != null;
  const marks = useMemo(
    () => [
      { id: "buy", name: "Buy", state },
      { id: "thread", name: "Thread", state: "good" as const },
      { id: "quote", name: "Quote", state: hasQuote ? ("good" as const) : ("missing" as const) },
    ],
    [state, hasQuote],
  );
  if (!view) return <Waiting title="Shopping list" loaded={loaded} />;
  const { list } = view;
  return (
    <Page title="Shopping list" lead={[view.suit, view.wearer].filter((one) => one !== "").join(", for ")} marks={marks}>
      <Section
        open
        id="buy"
        name="To buy"
        state={state}
        summary={view.head.summary}
        notes={view.head.notes.map((note) => (
          <Note
            key={note.place + note.says}
            state={sectionState(note.state)}
            says={note.says}
            {...(note.next !== "" && { next: note.next })}
            {...(/workroom/.test(note.next) && { action: { says: "To the workroom", href: "/workroom" } })}
          />
        ))}
      >
        <Lines lines={list.lines} total={list.total} />
        {list.unpriced.length > 0 && <p class="small">Without a price: {list.unpriced.join("; ")}.</p>}
        <Acts>
          <Word href={`/suits/${encodeURIComponent(suit)}`}>Back to the order</Word>
          {list.lines.length > 0 && (
            <Word href={`${at}/files/shopping-list.pdf`} save="shopping-list.pdf">
              Take the list as PDF
            </Word>
          )}
        </Acts>
      </Section>
      {list.threads.length > 0 && (
        <Section open id="thread" name="Spools and loopers" state="good" summary="How much each must hold, with waste and tests.">
          <ul class="sentences">
            {list.threads.map((says) => (
              <li key={says}>{unbroken(says)}</li>
            ))}
          </ul>
        </Section>
      )}
      <Section
        open
        id="quote"
        name="Quote"
        state={hasQuote ? "good" : "missing"}
        summary={list.quote ? list.quote.total : "An hour has no price yet."}
      >
        {list.quote ? (
          <>
            <Quote quote={list.quote} />
            <Acts>
              <Word href={`${at}/files/quote.pdf`} save="quote.pdf">
                Take the quote as PDF
              </Word>
            </Acts>
          </>
        ) : (
          <>
            <p class="lead">Write down what an hour costs, and here stands what the suit comes to.</p>
            <Acts>
              <Word href="/workroom#prices">To the prices</Word>
            </Acts>
          </>
        )}
      </Section>
    </Page>
  );
}

function Lines({ lines, total }: { readonly lines: readonly BuyLineView[]; readonly total: string | null }) {
  if (lines.length === 0) return null;
  return (
    <div class="buylist">
      <Table
        caption="What to buy"
        rows={lines}
        rowKey={(row) => row.what}
        columns={[
          {
            key: "what",
            head: "What",
            cell: (row) => (
              <>
                {row.what}
                {row.notes.length > 0 && <span class="small buynote">{unbroken(row.notes.join(" "))}</span>}
              </>
            ),
          },
          {
            key: "needed",
            head: "Needed",
            right: true,
            phone: "needed",
            cell: (row) => (
              <>
                <Figure quantity={shown(row.needed)} /> <Second quantity={shown(row.needed)} />
              </>
            ),
          },
          { key: "stock", head: "In stock", right: true, phone: "in stock", cell: (row) => <span class="money">{row.in_stock ? inWords(row.in_stock) : "none"}</span> },
          { key: "buy", head: "To buy", right: true, phone: "to buy", cell: (row) => (row.to_buy ? <b>{inWords(row.to_buy)}{packs(row)}</b> : <span class="quiet">nothing</span>) },
          { key: "cost", head: "Cost", right: true, phone: "cost", cell: (row) => <span class={row.to_buy ? "money" : "money quiet"}>{row.cost ?? (row.to_buy ? "no price" : "nothing")}</span> },
        ]}
      />
      {total !== null && (
        <p class="alltogether">
          All together <b>{total}</b>
        </p>
      )}
    </div>
  );
}

function packs(row: BuyLineView): string {
  if (row.packs === null) return "";
  return row.packs === 1 ? " (1 pack)" : ` (${row.packs} packs)`;
}

function Quote({ quote }: { readonly quote: QuoteView }) {
  return (
    <>
      <Table
        caption="Quote"
        rows={[...quote.rows, { name: "All together", value: quote.total }]}
        rowKey={(row) => row.name}
        columns={[
          { key: "what", head: "What", cell: (row) => row.name },
          { key: "amount", head: "Amount", right: true, cell: (row) => (row.name === "All together" ? <b>{row.value}</b> : row.value) },
        ]}
      />
      {quote.missing !== "" && <p class="small">{quote.missing}</p>}
    </>
  );
}

/** Scraps to sew and try before the suit is touched, with what the sample book has of them. */
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { StateIcon } from "../parts/icon.js";
import { Table } from "../parts/table.js";
import { Word } from "../parts/touch.js";

/** The list. */
export function Scraps({ tools }: { readonly tools: OrderTools }) {
  const { sew, suit } = tools.order.value;
  if (sew.scraps.length === 0) return null;
  const done = sew.scraps.filter((scrap) => scrap.done).length;
  const sheet = (place: number): string => `/samples?for=${encodeURIComponent(suit.id)}&scrap=${place}`;
  return (
    <>
      <h3>Scraps to sew first</h3>
      <p class="reading">
        Mark each scrap at rest, sew it, pull it as far as it says. {done === 0 ? "None is in the sample book yet." : `${done} of ${sew.scraps.length} are in the sample book.`}
      </p>
      <Table
        caption="Scraps to sew first"
        look="scraps"
        rows={sew.scraps}
        rowKey={(row) => String(row.place)}
        columns={[
          { key: "what", head: "Scrap", cell: (row) => unbroken(row.says) },
          { key: "marks", head: "Marks", right: true, phone: "marks", cell: (row) => row.pull_to && <Figure quantity={shown(row.marks)} /> },
          {
            key: "pull",
            head: "Pull to",
            right: true,
            phone: "pull to",
            cell: (row) => row.pull_to && <AskedFigure tools={tools} quantity={row.pull_to} label={`why so far: ${row.says}?`} />,
          },
          {
            key: "state",
            head: "",
            cell: (row) =>
              row.done ? (
                <StateIcon state="good" says="Sewn" />
              ) : (
                <Word href={sheet(row.place)}>
                  Write it down<span class="heard">: {row.says}</span>
                </Word>
              ),
          },
        ]}
      />
    </>
  );
}

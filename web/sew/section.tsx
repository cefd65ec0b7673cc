/** Section 6, Sew: the order of work with its ticks, scraps to sew first, the stitches, the elastic of each edge as a map. */
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { Table } from "../parts/table.js";
import { Acts, Word } from "../parts/touch.js";
import { Edge } from "./edge.js";
import { Scraps } from "./scraps.js";
import { Stitches } from "./stitches.js";
import { Work } from "./work.js";

/** The body of the section. */
export function SewSection({ tools }: { readonly tools: OrderTools }) {
  const { sew, suit } = tools.order.value;
  const mirrored = sew.edges.flatMap((edge) => edge.arcs).find((arc) => arc.letter.endsWith("′"))?.letter;
  return (
    <>
      {sew.steps.length > 0 && <Work tools={tools} />}
      <Scraps tools={tools} />
      <Stitches tools={tools} />
      {sew.edges.length > 0 && (
        <>
          <h3>The elastic map</h3>
          <p class="reading">
            Above, the edge of the suit. Below, the elastic. Upright strokes are flat; strokes that lean together are ease.
            {mirrored !== undefined &&
              ` Letters are those on the pieces; ${mirrored} is mark ${mirrored.slice(0, -1)} on the other side of the body.`}
          </p>
        </>
      )}
      {sew.edges.map((edge) => (
        <Edge key={edge.key} tools={tools} edge={edge} />
      ))}
      {sew.to_buy.length > 0 && (
        <>
          <h3>Elastic to buy</h3>
          <Table
            caption="Elastic to buy"
            rowKey={(row) => row.what}
            rows={sew.to_buy}
            columns={[
              { key: "what", head: "Elastic", cell: (row) => unbroken(row.what) },
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
      {sew.steps.length > 0 && (
        <Acts>
          <Word href={`/suits/${encodeURIComponent(suit.id)}/shopping`}>What to buy, and what it costs</Word>
        </Acts>
      )}
    </>
  );
}

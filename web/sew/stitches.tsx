/** The stitches for the machines there are: what each seam asks, how far its stitch reaches, why it was taken. */
import type { StitchView } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import { AskedFigure } from "../order/asked.js";
import type { OrderTools } from "../order/context.js";
import { shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { StateIcon } from "../parts/icon.js";
import { Table } from "../parts/table.js";
import { Word } from "../parts/touch.js";

/** The table, and before it what cannot be sewn safely. */
export function Stitches({ tools }: { readonly tools: OrderTools }) {
  const { sew } = tools.order.value;
  if (sew.stitches.length === 0) return null;
  const [first, ...ways] = sew.cannot;
  return (
    <>
      <h3>Stitches, for the machines you have</h3>
      <p class="reading restson">
        {unbroken(sew.rests_on)} {!sew.is_worn_solved && <Word href="#wear">4 Wear</Word>}
      </p>
      {first !== undefined && (
        <div class="heed cannot">
          <StateIcon state="stop" />
          <div>
            <p>{unbroken(first)}</p>
            {ways.map((way) => (
              <p key={way}>{unbroken(way)}</p>
            ))}
          </div>
        </div>
      )}
      <Table
        caption="Stitches"
        look="stitches"
        rows={sew.stitches}
        rowKey={(row) => `${row.job} ${row.stitch} ${row.setting.main}`}
        columns={[
          {
            key: "job",
            head: "Where",
            cell: (row) => (
              <>
                {row.job}
                <small>{row.steps}</small>
              </>
            ),
          },
          {
            key: "stitch",
            head: "Stitch",
            cell: (row) => (
              <>
                {row.stitch}
                <small>{row.machine}</small>
              </>
            ),
          },
          {
            key: "set",
            head: "Width × length",
            cell: (row) => (
              <>
                <Figure quantity={shown(row.setting)} />
                {row.rows !== "" && <small>{row.rows}</small>}
              </>
            ),
          },
          {
            key: "asked",
            head: "Needs",
            phone: "needs",
            cell: (row) =>
              row.asked ? (
                <>
                  <AskedFigure tools={tools} quantity={row.asked} label={`why is so much asked of ${row.stitch}, ${row.job.toLowerCase()}?`} />
                  <small>{unbroken(row.need)}</small>
                </>
              ) : (
                <span class="quiet">nothing: not stretched</span>
              ),
          },
          {
            key: "reaches",
            head: "Reaches",
            phone: "reaches",
            cell: (row) =>
              row.reaches && (
                <>
                  <AskedFigure tools={tools} quantity={row.reaches} label={`why does ${row.stitch} reach so far, ${row.job.toLowerCase()}?`} />
                  <small>{row.evidence}</small>
                </>
              ),
          },
          { key: "state", head: "", cell: (row) => <StateIcon state={row.state} /> },
        ]}
        more={(row) => <Reason row={row} />}
      />
    </>
  );
}

/** Why this one, and the rest of what to set; folded. */
function Reason({ row }: { readonly row: StitchView }) {
  const numbers = [row.seam_class, row.number].filter((one) => one !== "").join("; ");
  return (
    <details class="reason">
      <summary>
        Why this one, and what to set<span class="heard">: {row.job}, {row.stitch}</span>
      </summary>
      <div>
        <p>{unbroken(row.why.join(" "))}</p>
        {row.runner_up !== "" && <p>{unbroken(row.runner_up)}</p>}
        {row.could.map((could) => (
          <p key={could}>{unbroken(could)}</p>
        ))}
        <dl class="setlines">
          <div>
            <dt>Needle</dt>
            <dd>{row.needle}</dd>
          </div>
          <div>
            <dt>Thread</dt>
            <dd>{row.thread}</dd>
          </div>
          <div>
            <dt>Set</dt>
            <dd>{unbroken(row.also.join(" "))}</dd>
          </div>
          <div>
            <dt>Seam</dt>
            <dd>{numbers}</dd>
          </div>
        </dl>
      </div>
    </details>
  );
}

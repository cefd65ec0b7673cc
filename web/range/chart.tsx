/** The size chart: sizes across, dimensions and finished measures down, in cm or inches. */
import { useState } from "preact/hooks";
import type { RangeRowView, RangeSizeView, RangeView } from "../api/types.js";
import type { RangeCellView } from "../api/types.js";
import { Choice } from "../parts/choice.js";

type Shown = "cm" | "in";

/** The body of the section. */
export function Chart({ range }: { readonly range: RangeView }) {
  const first = range.body[0]?.cells.find((cell) => cell !== null)?.quantity.unit === "in" ? "in" : "cm";
  const [shown, setShown] = useState<Shown>(first);
  return (
    <>
      <Choice
        name="Shown in"
        options={[
          { value: "cm", says: "cm" },
          { value: "in", says: "in ⅛", spoken: "inches and eighths" },
        ]}
        value={shown}
        onChange={setShown}
      />
      <Rows name="Body" sizes={range.sizes} rows={range.body} shown={shown} />
      <p class="small">In brackets: estimated, not in the table.</p>
      <Rows name="Finished suit, flat and unstretched" sizes={range.sizes} rows={range.finished} shown={shown} />
    </>
  );
}

function Rows({ name, sizes, rows, shown }: {
  readonly name: string;
  readonly sizes: readonly RangeSizeView[];
  readonly rows: readonly RangeRowView[];
  readonly shown: Shown;
}) {
  return (
    <>
      <h3 class="apart">{name}</h3>
      <div class="chartscroll" role="region" aria-label={`${name}, all sizes`} tabIndex={0}>
        <table class="sizechart">
          <caption class="heard">
            {name}, in {shown === "cm" ? "centimetres" : "inches"}
          </caption>
          <thead>
            <tr>
              <th scope="col">{shown}</th>
              {sizes.map((size) => (
                <th key={size.name} scope="col" class="right">
                  {size.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.name}>
                <th scope="row">{row.name}</th>
                {row.cells.map((cell, i) => (
                  <td key={sizes[i]?.name ?? i} class="right">
                    {cell ? <Cell cell={cell} shown={shown} /> : <span class="heard">none</span>}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Cell({ cell, shown }: { readonly cell: RangeCellView; readonly shown: Shown }) {
  const { quantity, is_estimated } = cell;
  const text = quantity.unit === shown ? quantity.main : quantity.second.replace(/ (cm|in)$/, "");
  if (!is_estimated) return <>{text}</>;
  return (
    <span class="estimated">
      ({text})<span class="heard"> estimated</span>
    </span>
  );
}

/** A table that becomes stacked lines on the phone, and stays a table for ears there. */
import type { ComponentChildren } from "preact";

/** One column. */
export interface Column<R> {
  readonly key: string;
  /** Its heading; empty for a column of states or words. */
  readonly head: string;
  readonly right?: boolean;
  /** Said before the value on the phone, where the heading is gone: "needs". */
  readonly phone?: string;
  /** Left out on the phone. */
  readonly wideOnly?: boolean;
  readonly cell: (row: R) => ComponentChildren;
}

/** `caption` names the table for ears; the first column heads each row. */
export function Table<R>({ caption, columns, rows, rowKey }: {
  readonly caption: string;
  readonly columns: readonly Column<R>[];
  readonly rows: readonly R[];
  readonly rowKey: (row: R) => string;
}) {
  // Roles are written out because `display` on the phone would take them away.
  return (
    <table class="table" role="table">
      <caption class="heard">{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column) => (
            <th key={column.key} role="columnheader" scope="col" class={look(column)}>
              {column.head === "" ? <span class="heard">{column.key}</span> : column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={rowKey(row)} role="row">
            {columns.map((column, i) =>
              i === 0 ? (
                <th key={column.key} role="rowheader" scope="row" class={look(column)}>
                  {column.cell(row)}
                </th>
              ) : (
                <td key={column.key} role="cell" class={look(column)}>
                  {column.phone !== undefined && <span class="onphone">{column.phone} </span>}
                  {column.cell(row)}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function look<R>(column: Column<R>): string {
  return `${column.right ? "right" : ""}${column.wideOnly ? " wideonly" : ""}`.trim();
}

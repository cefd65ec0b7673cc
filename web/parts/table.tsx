/** A table that becomes stacked lines on the phone, and stays a table for ears there. */
import { Fragment } from "preact";
import type { ComponentChildren } from "preact";

/** One column. */
export interface Column<R> {
  readonly key: string;
  /** Its heading; empty for a column of states or words. */
  readonly head: string;
  readonly right?: boolean;
  /** Said before the value on the phone, where the heading is gone: "needs"; not before a cell that is `null`. */
  readonly phone?: string;
  /** Left out on the phone. */
  readonly wideOnly?: boolean;
  readonly cell: (row: R) => ComponentChildren;
}

/** `caption` names the table for ears; the first column heads each row. `more` stands below a row, as wide as the table. */
export function Table<R>({ caption, columns, rows, rowKey, more, look: name }: {
  readonly caption: string;
  readonly columns: readonly Column<R>[];
  readonly rows: readonly R[];
  readonly rowKey: (row: R) => string;
  readonly more?: (row: R) => ComponentChildren;
  /** A class of its own. */
  readonly look?: string;
}) {
  // Roles are written out because `display` on the phone would take them away.
  return (
    <table class={name === undefined ? "table" : `table ${name}`} role="table">
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
          <Fragment key={rowKey(row)}>
            <tr role="row">
              {columns.map((column, i) =>
                i === 0 ? (
                  <th key={column.key} role="rowheader" scope="row" class={look(column)}>
                    {column.cell(row)}
                  </th>
                ) : (
                  <td key={column.key} role="cell" class={look(column)}>
                    {column.phone !== undefined && column.cell(row) !== null && <span class="onphone">{column.phone} </span>}
                    {column.cell(row)}
                  </td>
                ),
              )}
            </tr>
            {more && (
              <tr class="more" role="row">
                <td role="cell" colSpan={columns.length}>
                  {more(row)}
                </td>
              </tr>
            )}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}

function look<R>(column: Column<R>): string {
  return `${column.right ? "right" : ""}${column.wideOnly ? " wideonly" : ""}`.trim();
}

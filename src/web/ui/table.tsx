import type { ComponentChildren } from 'preact';

export interface Column<Row> {
  head: string;
  of: (row: Row) => ComponentChildren;
  /** Numbers stand flush right. */
  figure?: boolean;
  /** What marks a cell, such as "late". */
  mark?: (row: Row) => string | undefined;
}

interface Props<Row> {
  label: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  keyOf: (row: Row) => string;
  /** Whether the first column names its row. */
  named?: boolean;
}

/** Rows of one kind; on a phone each is a list of its own, elsewhere they scroll inside the window where they are wider. */
export function Table<Row>({ label, columns, rows, keyOf, named = false }: Props<Row>) {
  return (
    <div class="table-scroll" tabIndex={0} role="region" aria-label={label}>
      <table class="plain-table stacks">
        <thead>
          <tr>
            {columns.map(({ head, figure }) => (
              <th key={head} scope="col" class={figure ? 'figure' : ''}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={keyOf(row)}>
              {columns.map(({ head, of, figure, mark }, at) => {
                const looks = [figure && 'figure', mark?.(row)].filter(Boolean).join(' ');
                return named && at === 0 ? (
                  <th key={head} scope="row" class={looks}>
                    {of(row)}
                  </th>
                ) : (
                  <td key={head} class={looks} data-label={head}>
                    {of(row)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

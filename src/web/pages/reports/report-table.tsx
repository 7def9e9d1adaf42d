import type { ReplyOf } from '../../api/reply.ts';
import { useSession } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import { LAYOUTS } from './layouts.ts';
import { entriesOf, ReportEntries } from './report-entries.tsx';
import { isFigure, isKnown, showValue } from './show-value.ts';

/** The numbers of a report: a row each, on a telephone a card each. */
export function ReportTable({ report }: { report: ReplyOf<'/api/v1/reports/{name}'> }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const { rows: rowsOf, columns, sums } = LAYOUTS[report.report];
  const rows = rowsOf(report);
  const reader = { words, units };
  const title = say(`report.question.${report.report}`);
  // A column of which nobody knows anything, such as costs that are not for this person, is left out.
  const shown = columns.filter(({ of }, index) => index === 0 || rows.some((row) => isKnown(of(row))));
  const hasEntries = rows.some((row) => entriesOf(row).length > 0);
  return (
    <>
      {sums && (
        <dl class="pairs card">
          {sums(report).map(({ word, kind, value }) => (
            <div key={word}>
              <dt>{say(`report.column.${word}`)}</dt>
              <dd class="figure">{showValue(kind, value, reader)}</dd>
            </div>
          ))}
        </dl>
      )}
      {rows.length === 0 ? (
        <p class="card">{say('report.none')}</p>
      ) : (
        <div class="table-scroll card" tabIndex={0} role="region" aria-label={title}>
          <table class="report-table stacks">
            <thead>
              <tr>
                {shown.map(({ word, kind }) => (
                  <th key={word} scope="col" class={isFigure(kind) ? 'figure' : ''}>
                    {say(`report.column.${word}`)}
                  </th>
                ))}
                {hasEntries && (
                  <th scope="col" class="entries">
                    {say('report.entries')}
                  </th>
                )}
              </tr>
            </thead>
            <tbody>
              {rows.map((row, at) => (
                <tr key={at}>
                  {shown.map(({ word, kind, of, href }, index) => {
                    const text = showValue(kind, of(row), reader);
                    const inside = href ? <a href={href(row)}>{text}</a> : text;
                    return index === 0 ? (
                      <th key={word} scope="row">
                        {inside}
                      </th>
                    ) : (
                      <td
                        key={word}
                        class={[isFigure(kind) && 'figure', kind === 'prose' && 'prose', !isKnown(of(row)) && 'unknown']
                          .filter(Boolean)
                          .join(' ')}
                        data-label={say(`report.column.${word}`)}
                      >
                        {inside}
                      </td>
                    );
                  })}
                  {hasEntries && (
                    <td class="entries">
                      <ReportEntries row={row} />
                    </td>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}

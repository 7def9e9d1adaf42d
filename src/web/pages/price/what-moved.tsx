import { Table } from '../../ui/table.tsx';
import { useWords } from '../../words/words.ts';
import type { Differences } from './base-price.ts';
import { useLineWords } from './line-words.ts';

/** Line by line what moved between two prices; nothing where nothing did. */
export function WhatMoved({ differences, currency, id = 'moved' }: { differences: Differences; currency: string; id?: string }) {
  const { say, named, money } = useWords();
  const lineWords = useLineWords();
  const rows = [
    ...differences.lines.map((line) => ({ name: lineWords(line), ...line })),
    ...differences.sold
      .filter(({ group }) => group === 'pass_through' || group === 'handling')
      .map((line) => ({ name: line.label, ...line })),
    ...differences.totals.map((line) => ({ name: named('price.total', line.total), ...line })),
  ].filter(({ differenceMinor }) => differenceMinor !== 0);
  if (rows.length === 0) return null;
  const shown = (minor: number | null) => (minor === null ? '–' : money(minor, currency));
  return (
    <section class="card" aria-labelledby={id}>
      <h2 id={id}>{say('price.moved')}</h2>
      <Table
        label={say('price.movedLines')}
        rows={rows}
        keyOf={({ name }) => name}
        named
        columns={[
          { head: say('price.line'), of: ({ name }) => name },
          { head: say('price.before'), of: ({ beforeMinor }) => shown(beforeMinor), figure: true },
          { head: say('price.after'), of: ({ afterMinor }) => shown(afterMinor), figure: true },
          {
            head: say('price.difference'),
            of: ({ differenceMinor }) => `${differenceMinor > 0 ? '+' : ''}${shown(differenceMinor)}`,
            figure: true,
          },
        ]}
      />
    </section>
  );
}

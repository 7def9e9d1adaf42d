import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { quoteAgainstActual } from './quote-against-actual.ts';
import type { Period, QuoteAgainstActualReply } from './reports.schema.ts';

type Compared = z.infer<typeof QuoteAgainstActualReply>['rows'][number];

export type KnownResult = Compared & { netMinor: number; entries: Compared['entries'] & { quoteId: string } };

/** Commissions that are over, with an accepted price and every cost known; and a sentence on those that are left out. */
export function knownResults(
  db: Db,
  asked: { now: Date; period: Period },
): { currency: string; rows: KnownResult[]; leftOut: string[] } {
  const { currency, rows } = quoteAgainstActual(db, asked);
  const over = rows.filter(({ state }) => ['made', 'handed_over', 'settled'].includes(state));
  const known = over.flatMap((row): KnownResult[] => {
    const { quoteId } = row.entries;
    const { price, marginFraction } = row.actual;
    if (quoteId === null || price === null || marginFraction === null || price.currency !== currency) return [];
    return [{ ...row, netMinor: price.amountMinor, entries: { ...row.entries, quoteId } }];
  });
  const knownIds = new Set(known.map(({ commissionId }) => commissionId));
  const without = over.filter(({ commissionId }) => !knownIds.has(commissionId));
  return {
    currency,
    rows: known,
    leftOut: without.length === 0 ? [] : [`Not known, and left out: ${without.map(({ number }) => number).join(', ')}`],
  };
}

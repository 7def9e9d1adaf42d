import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { reorderCsv, reorderList } from '../stock/index.ts';
import type { Period } from './reports.schema.ts';
import type { ToOrderReply } from './stock-reports.schema.ts';

type Report = z.infer<typeof ToOrderReply>;

/** What must be ordered, by supplier, filled up to the minimum. */
export function toOrder(db: Db, { now, period }: { now: Date; period: Period }): Report {
  return {
    report: 'to-order',
    ...period,
    about: [
      'As of now, whatever period is asked for: on hand in lots a heat may draw from, on order, held for pieces',
      'Order when on hand + on order − held is at the order point or under; companions come by position ÷ point until the minimum is met',
      'The working of each line is in it',
    ],
    ...reorderList(db, { now, all: false }),
  };
}

export function toOrderCsv(report: Report): string {
  return reorderCsv(report);
}

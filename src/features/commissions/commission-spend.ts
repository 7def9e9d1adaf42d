import type { Db } from '../../platform/db/client.ts';
import { money } from '../../platform/http/money.ts';
import { getSettings } from '../settings/index.ts';
import { actualCosts } from './actual-cost.ts';

/** What a commission has cost us so far, as its owner is shown it. */
export function spendToDate(db: Db, commissionId: string) {
  const { currency } = getSettings(db);
  const { minutes, costMinor, unpricedMetals } = actualCosts(db, [commissionId])(commissionId);
  return {
    minutes,
    labour: money(costMinor.labour, currency),
    overhead: money(costMinor.overhead, currency),
    consumables: money(costMinor.consumables, currency),
    solder: money(costMinor.solder, currency),
    metal: money(costMinor.metal, currency),
    hallmark: money(costMinor.hallmark, currency),
    total: money(
      Object.values(costMinor).reduce((total, one) => total + one, 0),
      currency,
    ),
    unpricedMetals,
  };
}

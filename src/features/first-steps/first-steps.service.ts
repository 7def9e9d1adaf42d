import { isNull } from 'drizzle-orm';
import { benches, commissions, people, sharedTablets, solderLots, torches } from '../../platform/db/tables.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';

/** In the order in which a studio needs them: nothing is planned without solder, nothing offered without prices. */
export const FIRST_STEPS = ['solder', 'prices', 'bench', 'commission', 'person', 'tablet'] as const;
type FirstStep = (typeof FIRST_STEPS)[number];

/** What a new studio does first, each done as soon as the book shows it. */
export function firstSteps(db: Db): { shown: boolean; steps: { step: FirstStep; done: boolean }[] } {
  const { firstSteps: wanted, finePrice } = getSettings(db);
  const any = (table: typeof benches | typeof commissions | typeof solderLots | typeof torches) =>
    db.select({ id: table.id }).from(table).limit(1).all().length > 0;
  const done: Record<FirstStep, boolean> = {
    solder: any(solderLots),
    prices: finePrice !== null,
    bench: any(benches) || any(torches),
    commission: any(commissions),
    person: db.select({ id: people.id }).from(people).limit(2).all().length > 1,
    tablet:
      db.select({ id: sharedTablets.id }).from(sharedTablets).where(isNull(sharedTablets.revokedAt)).limit(1).all().length > 0,
  };
  return { shown: wanted.shown, steps: FIRST_STEPS.map((step) => ({ step, done: done[step] })) };
}

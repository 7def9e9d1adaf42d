import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { factorOffers } from './factor-offers.ts';
import type { FactorQuery, FactorReply, NewLearnedFactor, OfferReply } from './learning.schema.ts';
import * as store from './time-records.store.ts';

export type LearningService = ReturnType<typeof createLearningService>;

/** Factors that differ by less are the same: they went through JSON. */
const SAME = 1e-9;

export function createLearningService({ db, clock }: Platform) {
  return {
    /** What the records say of each operation; nothing is used before the owner accepts it. */
    offers(): { items: z.infer<typeof OfferReply>[] } {
      const items = factorOffers(db, clock.now().toISOString()).map((offer) => {
        const now = offer.personId === null ? store.factorNow(db, offer.operation) : undefined;
        return { ...offer, inUse: now ? { factor: now.factor, acceptedAt: now.createdAt } : null };
      });
      return { items };
    },

    /** Accepts the factor that is offered now; prices made from then on use it, old ones stay as they are. */
    accept(actor: Actor, { operation, personId, factor }: z.infer<typeof NewLearnedFactor>): z.infer<typeof FactorReply> {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const offer = factorOffers(tx, by.at.toISOString()).find(
          (one) => one.operation === operation && one.personId === personId,
        );
        if (!offer)
          throw invalidFields([{ pointer: '/operation', detail: 'There are no records of this operation.', given: operation }]);
        if (Math.abs(offer.factor - factor) > SAME)
          throw new Problem('moved-on', `Cannot accept ${factor}: the records say ${offer.factor} by now`, {
            factor: offer.factor,
          });
        const row = store.insertFactor(tx, {
          id: newId(by.at),
          operation,
          personId,
          factor: offer.factor,
          spread: offer.shrunkSpread,
          pieces: offer.pieces,
          evidence: {
            prior: offer.prior,
            centre: Math.log(offer.usualRatio),
            says: offer.says,
            records: offer.records.map(({ commissionId, estimateMinutes, actualMinutes }) => ({
              commissionId,
              estimateMinutes,
              actualMinutes,
            })),
          },
          acceptedBy: actor.personId,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'learned-factor', id: row.id, after: row });
        return show(row);
      });
    },

    list: (query: z.infer<typeof FactorQuery>) => pageOf(store.listFactors(db, query), query, show),
  };
}

/** The factor and the spread that prices use for an operation: those accepted last. */
export function factorInUse(db: Db, operation: string): { factor: number; shrunkSpread: number } | undefined {
  const row = store.factorNow(db, operation);
  return row && { factor: row.factor, shrunkSpread: row.spread };
}

function show({ evidence: { says, records }, ...row }: store.FactorRow): z.infer<typeof FactorReply> {
  return { ...row, says, records };
}

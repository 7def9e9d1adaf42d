import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { dayAheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { findCommission, type CommissionRow } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import type { ClientLetterQuery, ClientLetterReply, NewClientLetter } from './client-letters.schema.ts';
import * as store from './client-letters.store.ts';

export type ClientLetterService = ReturnType<typeof createClientLetterService>;
type Reply = z.infer<typeof ClientLetterReply>;

/** What clients were written or told: noted, never changed. */
export function createClientLetterService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { sentOn, ...letter }: z.infer<typeof NewClientLetter>): Reply {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const today = dateInZone(by.at, getSettings(tx).timeZone);
        const day = sentOn ?? today;
        holdFields(
          [
            ...commissionErrors(findCommission(tx, letter.commissionId), letter.commissionId),
            ...dayAheadErrors('/sentOn', day, today),
          ],
          actor.confirmed,
        );
        const row = store.insertLetter(tx, {
          ...letter,
          id: newId(by.at),
          sentOn: day,
          personId: actor.personId,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'client_letter', id: row.id, after: row });
        return row as Reply;
      });
    },

    list: (query: z.infer<typeof ClientLetterQuery>) => pageOf(store.listLetters(db, query), query, (row) => row as Reply),
  };
}

function commissionErrors(commission: CommissionRow | undefined, given: string): FieldError[] {
  if (!commission) return [{ pointer: '/commissionId', detail: 'There is no such commission.', given }];
  return commission.clientId === null
    ? [{ pointer: '/commissionId', detail: `${commission.number} has no client to write to.`, given }]
    : [];
}

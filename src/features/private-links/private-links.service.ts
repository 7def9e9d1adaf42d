import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { findClient } from '../clients/index.ts';
import { findCommission, getCommission } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { hashOf, lastDay, newSecret, withoutSecret, writeLinkMove } from './link-life.ts';
import type { LinkMove, LinkReply, NewLink, NewLinkReply } from './private-links.schema.ts';
import * as store from './private-links.store.ts';

export type PrivateLinkService = ReturnType<typeof createPrivateLinkService>;

/** Links that the studio gives to clients. Only the hash of the secret in a link is kept. */
export function createPrivateLinkService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { commissionId }: z.infer<typeof NewLink>): z.infer<typeof NewLinkReply> {
      return db.transaction((tx) => {
        const commission = findCommission(tx, commissionId);
        if (!commission)
          throw invalidFields([{ pointer: '/commissionId', detail: 'There is no such commission.', given: commissionId }]);
        const missing = [
          ...(getSettings(tx).privateLinks.on ? [] : ['the owner has to turn private links on in the settings']),
          ...(commission.clientId === null ? ['it has no client'] : []),
        ];
        if (missing.length > 0)
          throw new Problem('condition-not-met', `Cannot make a link to ${commission.number}: ${missing.join('; ')}`, {
            missing,
          });
        const by = writtenBy(actor, clock.now());
        const secret = newSecret();
        const row = store.insertLink(tx, {
          id: newId(by.at),
          commissionId,
          tokenHash: hashOf(secret),
          state: 'open',
          madeBy: actor.personId,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'private-link', id: row.id, after: withoutSecret(row) });
        return { ...show(tx, actor, row), path: `/link/${secret}` };
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getLink(db, id)),

    list: (actor: Actor, query: Page & store.LinkFilter) =>
      pageOf(store.listLinks(db, query), query, (row) => show(db, actor, row)),

    move(actor: Actor, id: string, sent: z.infer<typeof LinkMove>) {
      return db.transaction((tx) => {
        const now = clock.now();
        const before = store.getLink(tx, id);
        holdToLifecycle('private_link', actor, { state: before.state, sent, now });
        const by = writtenBy(actor, now, sent.deviceId);
        return show(tx, actor, writeLinkMove(tx, by, before, { state: sent.to, reason: sent.reason ?? null }));
      });
    },

    messages: (query: Page & { commissionId?: string | undefined }) => pageOf(store.listMessages(db, query), query, (row) => row),
  };
}

function show(db: Db, actor: Actor, row: store.LinkRow): z.infer<typeof LinkReply> {
  const commission = getCommission(db, row.commissionId);
  const { tokenHash: _hash, madeBy: _person, ...rest } = row;
  return {
    ...rest,
    state: row.state as z.infer<typeof LinkReply>['state'],
    commissionNumber: commission.number,
    clientName: findClient(db, commission.clientId ?? '')?.name ?? '',
    endsOn: lastDay(db, commission),
    allowedMoves: allowedMoves('private_link', actor, { state: row.state }),
  };
}

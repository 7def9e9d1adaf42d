import type { z } from 'zod';
import { addedMetal } from '../../../shared/costing/added-metal.ts';
import { PUBLISHED_MARKING_RULES } from '../../../shared/costing/published-marking-rules.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import type { PlaceRulesBody, PublishedReply } from './place-rules.schema.ts';
import * as store from './place-rules.store.ts';

export type PlaceRulesService = ReturnType<typeof createPlaceRulesService>;

/** What each place asks, as the studio enters it: empty at first, since nobody else can answer for it. */
export function createPlaceRulesService({ db, clock }: Platform) {
  return {
    stored: (place: string): store.PlaceRulesRow | undefined => store.findPlaceRules(db, place),

    get(place: string): store.PlaceRulesRow {
      const row = store.findPlaceRules(db, place);
      if (!row) throw notFound('rules for the place', place);
      return row;
    },

    /** Whether so much may be added to a piece that is marked; also where nothing is entered, which says whom to ask. */
    addedMetal: (place: string, asked: { pieceG: number; addedG: number }) =>
      addedMetal(asked, store.findPlaceRules(db, place) ?? { addedMetalG: null, addedMetalFraction: null }),

    list: (query: { limit: number; cursor?: string | undefined }) =>
      pageOf(
        store.listPlaceRules(db, query).map((row) => ({ ...row, id: row.place })),
        query,
        ({ id: _id, ...row }) => row,
      ),

    published: (): z.infer<typeof PublishedReply> => ({
      items: [...PUBLISHED_MARKING_RULES],
      about: 'Read in public pages or remembered, to start from. Nothing is computed with it: enter what your own office says',
    }),

    /** @param seen the version that was read; asked for once there is one */
    put(actor: Actor, place: string, seen: () => number, body: z.infer<typeof PlaceRulesBody>): store.PlaceRulesRow {
      return db.transaction((tx) => {
        const before = store.findPlaceRules(tx, place);
        if (before) holdToVersion('rules', before.version, seen());
        const by = writtenBy(actor, clock.now());
        const version = (before?.version ?? 0) + 1;
        const after = store.putPlaceRules(tx, { place, ...body, version, updatedAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'place_rules', id: place, before, after });
        return after;
      });
    },
  };
}

import type { z } from 'zod';
import { countDifference } from '../../../shared/stock/count-difference.ts';
import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { comparisonOf } from './count-comparison.ts';
import { toG, toTenthMg } from './grams.ts';
import { metalOnHandOf } from './metal-lots.store.ts';
import { seesPrices } from './stock-fields.ts';
import { onHandOf } from './stock-movements.store.ts';
import { worth } from './stock-value.ts';
import { moveStocktake } from './stocktake-moves.ts';
import type { NewCounts, StocktakeMove, StocktakeQuery, StocktakeReply } from './stocktakes.schema.ts';
import * as store from './stocktakes.store.ts';
import { trimOffer } from './trim-offer.ts';

export type StocktakeService = ReturnType<typeof createStocktakeService>;

type Sent = z.infer<typeof NewCounts>['counts'][number];

export function createStocktakeService({ db, clock }: Platform) {
  return {
    /** Begins a stocktake of every lot that may hold something. */
    begin(actor: Actor) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const open = store.findOpenStocktake(tx);
        if (open)
          throw new Problem('condition-not-met', `Cannot begin a stocktake: ${open.number} is under way; post or drop it first`, {
            stocktakeId: open.id,
          });
        const row = store.insertStocktake(tx, {
          id: newId(by.at),
          number: `T${nextNumber(tx, 'stocktake')}`,
          state: 'counting',
          createdAt: by.at.toISOString(),
        });
        const { solder, metal } = store.lotsToCount(tx);
        for (const solderLotId of solder) store.insertCount(tx, { id: newId(by.at), stocktakeId: row.id, solderLotId });
        for (const metalLotId of metal) store.insertCount(tx, { id: newId(by.at), stocktakeId: row.id, metalLotId });
        writeJournal(tx, by, { what: 'stocktake', id: row.id, after: row });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getStocktake(db, id)),

    list: (actor: Actor, query: z.infer<typeof StocktakeQuery>) =>
      pageOf(store.listStocktakes(db, query), query, (row) => show(db, actor, row)),

    /** Notes what a scale said. What the book has at that moment is kept beside it, and shown once all is compared. */
    count(actor: Actor, id: string, { counts }: z.infer<typeof NewCounts>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const row = store.getStocktake(tx, id);
        const lots = new Map(store.countsOf(tx, id).map((lot) => [lot.lotId, lot]));
        holdFields(countErrors(row, counts, lots), actor.confirmed);
        for (const sent of counts) {
          const lot = lots.get(sent.lotId)!;
          const after = store.updateCount(tx, lot.count.id, {
            ...(sent.reason === undefined ? {} : { reason: sent.reason }),
            ...(sent.weighedG === undefined
              ? {}
              : {
                  ...bookNow(tx, lot),
                  countedTenthMg: toTenthMg(sent.weighedG - sent.tareG),
                  countedAt: by.at.toISOString(),
                  countedBy: actor.personId,
                }),
          });
          writeJournal(tx, by, { what: 'stocktake-count', id: lot.count.id, before: lot.count, after });
        }
        return show(tx, actor, store.updateStocktake(tx, id, { version: row.version + 1 }));
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof StocktakeMove>) {
      return db.transaction((tx) => show(tx, actor, moveStocktake(tx, actor, { id, sent, now: clock.now() })));
    },
  };
}

function bookNow(db: Db, lot: store.CountedLot) {
  return {
    bookTenthMg: lot.of === 'solder' ? onHandOf(db, lot.lotId) : metalOnHandOf(db, lot.lotId),
    usedTenthMg: store.usedSince(db, lot, store.lastCountOf(db, lot.lotId)),
  };
}

function countErrors(
  row: store.StocktakeRow,
  counts: readonly Sent[],
  lots: ReadonlyMap<string, store.CountedLot>,
): FieldError[] {
  const isCounting = row.state === 'counting';
  if (!isCounting && row.state !== 'compared')
    throw new Problem('condition-not-met', `Cannot count in stocktake ${row.number}: it is ${row.state}`, { state: row.state });
  return counts.flatMap(({ lotId, weighedG, tareG, reason }, index): FieldError[] => {
    const pointer = `/counts/${index}`;
    const lot = lots.get(lotId);
    if (!lot) return [{ pointer: `${pointer}/lotId`, detail: 'This stocktake has no such lot.', given: lotId }];
    if (weighedG === undefined)
      return reason === undefined ? [{ pointer, detail: 'Say what it weighs, or why it is not counted.' }] : [];
    if (!isCounting)
      return [{ pointer: `${pointer}/weighedG`, detail: 'It is compared: move it back to counting to count again.' }];
    if (tareG > weighedG)
      return [
        { pointer: `${pointer}/tareG`, detail: `The tare is more than the ${weighedG} g weighed.`, given: tareG, unit: 'g' },
      ];
    if (toTenthMg(weighedG - tareG) <= 2 * lot.receivedTenthMg) return [];
    return [
      {
        pointer: `${pointer}/weighedG`,
        detail: `${weighedG} g of lot ${lot.number}, of which ${toG(lot.receivedTenthMg)} g came in: is the unit right?`,
        given: weighedG,
        unit: 'g',
        confirmable: true,
      },
    ];
  });
}

function show(db: Db, actor: Actor, row: store.StocktakeRow): z.infer<typeof StocktakeReply> {
  const settings = getSettings(db);
  const { currency } = settings;
  const lots = store.countsOf(db, row.id);
  const isBlind = row.state === 'counting';
  return {
    ...row,
    state: row.state as z.infer<typeof StocktakeReply>['state'],
    counts: lots.map((lot) => {
      const { count, lotId, number, of, product, owner } = lot;
      const found = isBlind ? undefined : comparisonOf(lot);
      return {
        lotId,
        number,
        of,
        product,
        owner,
        countedG: count.countedTenthMg === null ? null : toG(count.countedTenthMg),
        countedAt: count.countedAt,
        countedBy: count.countedBy,
        reason: count.reason,
        compared: found
          ? {
              ...found,
              ...(seesPrices(actor)
                ? { value: worth(currency, [{ tenthMg: toTenthMg(found.differenceG), costPerG: lot.costPerG }]) }
                : {}),
            }
          : null,
      };
    }),
    left: lots.filter(({ count }) => count.countedTenthMg === null && count.reason === null).length,
    trims: isBlind ? [] : trimsOf(settings, lots),
    // Students do not write stock.
    allowedMoves: worksHere(actor) ? allowedMoves('stocktake', actor, { state: row.state }) : [],
  };
}

/** By product: what its lots together say of the trim. */
function trimsOf(settings: Settings, lots: readonly store.CountedLot[]): z.infer<typeof StocktakeReply>['trims'] {
  return [...groupBy(lots, ({ productId }) => productId)].flatMap(([id, own]) => {
    const { product: name, code } = own[0]!;
    if (code === null) return [];
    const found = own.flatMap((lot) => comparisonOf(lot) ?? []);
    const total = (pick: (one: (typeof found)[number]) => number) =>
      Number(found.reduce((sum, one) => sum + pick(one), 0).toFixed(4));
    const usedG = total((one) => one.usedG);
    const all = countDifference({
      bookG: total(({ bookG }) => bookG),
      countedG: total(({ bookG, differenceG }) => bookG + differenceG),
      usedG,
    });
    return trimOffer(settings, { id, code, name }, { ...all, usedG }) ?? [];
  });
}

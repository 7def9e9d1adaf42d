import { and, asc, desc, eq, inArray, notInArray, or, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { benchTimes, commissions, heats, pieces, solderLots, stockMovements } from '../../platform/db/tables.ts';

const OVER = ['turned_down', 'handed_over', 'settled', 'called_off'];
const UNDER_WAY = ['alight', 'cooling', 'in_pickle', 'looking', 'primed'];

/** The heat this person has in hand: a flame is on it, or it waits for one. */
export function heatInHand(db: Db, personId: string): string | undefined {
  return db
    .select({ id: heats.id })
    .from(heats)
    .where(
      and(
        inArray(heats.state, UNDER_WAY),
        or(eq(heats.litBy, personId), and(eq(heats.primedBy, personId), eq(heats.state, 'primed'))),
      ),
    )
    .orderBy(asc(sql`${heats.state} = 'primed'`), desc(heats.alightAt), desc(heats.id))
    .limit(1)
    .get()?.id;
}

/** What this person's running timer is on. */
export function timerTarget(db: Db, personId: string): { heatId: string | null; pieceId: string | null } | undefined {
  return db
    .select({ heatId: benchTimes.heatId, pieceId: benchTimes.pieceId })
    .from(benchTimes)
    .where(and(eq(benchTimes.personId, personId), eq(benchTimes.state, 'running')))
    .get();
}

/** The first heat left of each piece whose heats may be worked now, and of a hurt piece the one that was spoilt; earliest due first. */
export function nextHeats(db: Db, { practiceOnly }: { practiceOnly: boolean }) {
  const rows = db
    .select({
      heatId: heats.id,
      heatNumber: heats.number,
      state: heats.state,
      pieceId: pieces.id,
      pieceNumber: pieces.number,
      title: pieces.title,
      dueOn: commissions.dueOn,
    })
    .from(heats)
    .innerJoin(pieces, eq(pieces.id, heats.pieceId))
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(
      and(
        or(
          and(inArray(heats.state, [...UNDER_WAY, 'laid_out']), inArray(pieces.state, ['cut', 'soldering'])),
          and(eq(heats.state, 'spoilt'), eq(pieces.state, 'hurt')),
        ),
        // Of work that is over only what is in the fire is still to be brought to its end.
        or(inArray(heats.state, UNDER_WAY), notInArray(commissions.state, OVER)),
        practiceOnly ? eq(commissions.kind, 'teaching_piece') : undefined,
      ),
    )
    .orderBy(sql`${commissions.dueOn} IS NULL`, asc(commissions.dueOn), asc(pieces.id), asc(heats.number))
    .all();
  const first = new Map<string, (typeof rows)[number]>();
  // Of heats that were spoilt one after the other the last has to be planned anew.
  for (const row of rows) if (row.state === 'spoilt' || !first.has(row.pieceId)) first.set(row.pieceId, row);
  return [...first.values()];
}

/** Lots of a product that a heat may draw from, oldest first, with what each holds. */
export function usableLots(db: Db, productId: string) {
  return db
    .select({
      id: solderLots.id,
      number: solderLots.number,
      markOnMetal: solderLots.markOnMetal,
      onHandTenthMg: sql<number>`coalesce(sum(${stockMovements.onHandTenthMg}), 0)`,
    })
    .from(solderLots)
    .leftJoin(stockMovements, eq(stockMovements.lotId, solderLots.id))
    .where(
      and(
        eq(solderLots.productId, productId),
        inArray(solderLots.state, ['sealed', 'open']),
        eq(solderLots.cadmiumStanding, 'no'),
      ),
    )
    .groupBy(solderLots.id)
    .orderBy(asc(solderLots.receivedOn), asc(solderLots.id))
    .all();
}

import type { Db } from '../../platform/db/client.ts';
import { currentDesign, livePiecesOf, solderNeeded } from '../pieces/index.ts';
import { metalNeeded, suppliesHeld, supplyWaits, type Supplies, type SupplyWait } from '../stock/index.ts';

interface Job {
  commissionId: string | null;
}

type Waiting<Asked extends Job> = Asked & { waits: SupplyWait[]; readyOn: string | null };

/**
 * What each job waits for, the first in the list served first: what is held for it, and of one that is not agreed yet what its plans
 * and designs need.
 */
export function withWaits<Asked extends Job>(
  db: Db,
  jobs: readonly Asked[],
  { today, notHeld }: { today: string; notHeld?: string | undefined },
): Waiting<Asked>[] {
  const held = suppliesHeld(db);
  const work = jobs.map(({ commissionId }): Supplies => {
    if (commissionId === null) return { solder: [], metal: [] };
    const pieces = livePiecesOf(db, commissionId);
    const each = pieces.map(({ id }) => (commissionId === notHeld ? neededFor(db, id) : held.get(id)));
    return { solder: each.flatMap((one) => one?.solder ?? []), metal: each.flatMap((one) => one?.metal ?? []) };
  });
  const waits = supplyWaits(db, work, today);
  return jobs.map((job, place) => ({
    ...job,
    waits: waits[place]!,
    readyOn:
      waits[place]!.map(({ until }) => until)
        .toSorted()
        .at(-1) ?? null,
  }));
}

export function waitSentence({ what, shortG, until, because, order, overdueSince }: SupplyWait): string {
  const short = `it waits for ${shortG} g of ${what}`;
  if (overdueSince !== null) return `${short}: order ${order} was ${because} for ${overdueSince} and has not come`;
  if (because === 'lead_time') return `${short}, not on order: there by ${until} if it is ordered today`;
  return `${short} until ${until}, ${because === 'promised' ? 'as promised' : 'as expected by the lead time'} of order ${order}`;
}

function neededFor(db: Db, pieceId: string): Supplies {
  const design = currentDesign(db, pieceId)?.body;
  return { solder: solderNeeded(db, pieceId), metal: design ? metalNeeded(db, design) : [] };
}

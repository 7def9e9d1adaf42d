import type { Db } from '../../platform/db/client.ts';
import { inGrams, SCALE_ERROR_TENTH_MG } from './grams.ts';
import { Sums, type Finding } from './ledger-audit.ts';
import { allMetalHolds, heldMetal, type HeldMetal, type MetalHoldRow } from './metal-holds.store.ts';
import {
  allMetalMovements,
  metalLotsOldestFirst,
  metalOnHandByLot,
  type MetalLotRow,
  type MetalMovementRow,
} from './metal-lots.store.ts';

interface MetalBook {
  movements: readonly MetalMovementRow[];
  holds: readonly MetalHoldRow[];
  lots: readonly MetalLotRow[];
  /** What the rest of the program shows. */
  shownOnHand: ReadonlyMap<string, number>;
  shownHeld: readonly HeldMetal[];
}

/** The whole ledger of metal in the order it was written, and what is shown of it. */
export function metalBook(db: Db): MetalBook {
  return {
    movements: allMetalMovements(db),
    holds: allMetalHolds(db),
    lots: metalLotsOldestFirst(db).map(({ lot }) => lot),
    shownOnHand: metalOnHandByLot(db),
    shownHeld: heldMetal(db),
  };
}

/** Adds the ledger of metal up again, line by line, and tells everything in it that cannot be. */
export function auditMetal({ movements, holds, lots, shownOnHand, shownHeld }: MetalBook): Finding[] {
  const byId = new Map(lots.map((lot) => [lot.id, lot]));
  const onHand = new Sums();
  const received = new Sums();
  const findings: Finding[] = [];
  for (const { id, kind, lotId, onHandTenthMg } of movements) {
    if (kind === 'receive') received.add(lotId, onHandTenthMg);
    if (onHand.add(lotId, onHandTenthMg) >= -SCALE_ERROR_TENTH_MG) continue;
    const says = `Metal lot ${byId.get(lotId)?.number ?? lotId} was at ${inGrams(onHand.of(lotId))} after movement ${id}`;
    findings.push({ what: 'metal_lot', id: lotId, says });
  }
  return [
    ...findings,
    ...wrongReversals(movements),
    ...wrongLots({ lots, onHand, received, shownOnHand }),
    ...wrongHolds(holds, shownHeld),
  ];
}

function wrongReversals(movements: readonly MetalMovementRow[]): Finding[] {
  const byId = new Map(movements.map((movement) => [movement.id, movement]));
  return movements.flatMap(({ id, lotId, onHandTenthMg, reversesId }): Finding[] => {
    if (reversesId === null) return [];
    const wrong = byId.get(reversesId);
    if (wrong?.lotId === lotId && wrong.onHandTenthMg + onHandTenthMg === 0) return [];
    return [{ what: 'metal_movement', id, says: `Movement ${id} is not the opposite of the one it reverses` }];
  });
}

function wrongLots({
  lots,
  onHand,
  received,
  shownOnHand,
}: Pick<MetalBook, 'lots' | 'shownOnHand'> & { onHand: Sums; received: Sums }): Finding[] {
  return lots.flatMap(({ id, number, receivedTenthMg }) => {
    const [sum, shows] = [onHand.of(id), shownOnHand.get(id) ?? 0];
    return [
      ...(sum === shows ? [] : [`Metal lot ${number} shows ${inGrams(shows)}; its movements add up to ${inGrams(sum)}`]),
      ...(received.of(id) === receivedTenthMg
        ? []
        : [`Metal lot ${number} came in with ${inGrams(receivedTenthMg)}; its receipts add up to ${inGrams(received.of(id))}`]),
    ].map((says): Finding => ({ what: 'metal_lot', id, says }));
  });
}

const keyOf = ({ pieceId, metal, productId }: Pick<HeldMetal, 'pieceId' | 'metal' | 'productId'>) =>
  `${pieceId} ${metal} ${productId}`;

function wrongHolds(holds: readonly MetalHoldRow[], shownHeld: readonly HeldMetal[]): Finding[] {
  const held = new Sums();
  const below = holds
    .filter((hold) => held.add(keyOf(hold), hold.heldTenthMg) < 0)
    .map(({ id }): Finding => ({ what: 'metal_hold', id, says: `Less than nothing was held of a metal after ${id}` }));
  const shown = new Map(shownHeld.map((one) => [keyOf(one), one.tenthMg]));
  const wrong = held
    .names()
    .filter((key) => held.of(key) !== (shown.get(key) ?? 0))
    .map((key): Finding => ({
      what: 'metal_hold',
      id: key,
      says: `Holds of ${key} add up to ${inGrams(held.of(key))}, and show otherwise`,
    }));
  return [...below, ...wrong];
}

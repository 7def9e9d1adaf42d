import { inGrams, SCALE_ERROR_TENTH_MG } from './grams.ts';
import type { LotRow } from './solder-lots.store.ts';
import type { MovementRow } from './stock-movements.store.ts';

export interface Finding {
  what: 'lot' | 'product' | 'piece' | 'movement' | 'metal_lot' | 'metal_product' | 'metal_movement' | 'metal_hold';
  id: string;
  says: string;
}

interface Book {
  /** The whole ledger in the order it was written. */
  movements: readonly MovementRow[];
  lots: readonly LotRow[];
  /** What the rest of the program shows: on hand by lot, held by product. */
  shownOnHand: ReadonlyMap<string, number>;
  shownHeld: ReadonlyMap<string, number>;
}

/** Adds the ledger up again, line by line, and tells everything in it that cannot be. */
export function auditLedger({ movements, lots, shownOnHand, shownHeld }: Book): Finding[] {
  const lotById = new Map(lots.map((lot) => [lot.id, lot]));
  const onHand = new Sums();
  const held = new Sums();
  const heldForPiece = new Sums();
  const findings: Finding[] = [];
  for (const movement of movements) {
    const { id, lotId, productId, pieceId, onHandTenthMg, heldTenthMg } = movement;
    findings.push(...wrongLine(movement, lotId === null ? undefined : lotById.get(lotId)));
    if (lotId !== null && onHand.add(lotId, onHandTenthMg) < -SCALE_ERROR_TENTH_MG) {
      const number = lotById.get(lotId)?.number ?? lotId;
      findings.push({ what: 'lot', id: lotId, says: `Lot ${number} was at ${inGrams(onHand.of(lotId))} after movement ${id}` });
    }
    held.add(productId, heldTenthMg);
    if (pieceId !== null && heldForPiece.add(`${pieceId} ${productId}`, heldTenthMg) < 0) {
      findings.push({ what: 'piece', id: pieceId, says: `Less than nothing was held for the piece after movement ${id}` });
    }
  }
  return [
    ...findings,
    ...wrongReversals(movements),
    ...wrongLots(lots, movements, onHand, shownOnHand),
    ...wrongHolds(held, shownHeld),
  ];
}

/** Running totals by name. */
export class Sums {
  readonly #totals = new Map<string, number>();

  add(name: string, amount: number): number {
    const total = this.of(name) + amount;
    this.#totals.set(name, total);
    return total;
  }

  of(name: string): number {
    return this.#totals.get(name) ?? 0;
  }

  names(): string[] {
    return [...this.#totals.keys()];
  }
}

function wrongLine({ id, productId, lotId, onHandTenthMg }: MovementRow, lot: LotRow | undefined): Finding[] {
  if (lotId === null) {
    return onHandTenthMg === 0 ? [] : [{ what: 'movement', id, says: `Movement ${id} changes what is on hand and names no lot` }];
  }
  return lot?.productId === productId
    ? []
    : [{ what: 'movement', id, says: `Movement ${id} names a product that its lot is not of` }];
}

function wrongReversals(movements: readonly MovementRow[]): Finding[] {
  const byId = new Map(movements.map((movement) => [movement.id, movement]));
  return movements.flatMap((reversal): Finding[] => {
    if (reversal.reversesId === null) return [];
    const wrong = byId.get(reversal.reversesId);
    const opposite =
      wrong?.lotId === reversal.lotId &&
      wrong.onHandTenthMg + reversal.onHandTenthMg === 0 &&
      wrong.heldTenthMg + reversal.heldTenthMg === 0;
    return opposite
      ? []
      : [{ what: 'movement', id: reversal.id, says: `Movement ${reversal.id} is not the opposite of the one it reverses` }];
  });
}

function wrongLots(
  lots: readonly LotRow[],
  movements: readonly MovementRow[],
  onHand: Sums,
  shown: ReadonlyMap<string, number>,
): Finding[] {
  const received = new Sums();
  for (const { kind, lotId, onHandTenthMg } of movements)
    if (kind === 'receive' && lotId !== null) received.add(lotId, onHandTenthMg);
  return lots.flatMap(({ id, number, state, receivedTenthMg }) => {
    const sum = onHand.of(id);
    const shows = shown.get(id) ?? 0;
    const gone = state === 'finished' || state === 'written_off';
    return [
      ...(sum === shows ? [] : [`Lot ${number} shows ${inGrams(shows)}; its movements add up to ${inGrams(sum)}`]),
      ...(received.of(id) === receivedTenthMg
        ? []
        : [`Lot ${number} came in with ${inGrams(receivedTenthMg)}; its receipts add up to ${inGrams(received.of(id))}`]),
      ...(gone && sum !== 0 ? [`Lot ${number} is ${state.replaceAll('_', ' ')} and still holds ${inGrams(sum)}`] : []),
    ].map((says): Finding => ({ what: 'lot', id, says }));
  });
}

function wrongHolds(held: Sums, shown: ReadonlyMap<string, number>): Finding[] {
  return [...new Set([...held.names(), ...shown.keys()])]
    .filter((productId) => held.of(productId) !== (shown.get(productId) ?? 0))
    .map((id) => ({
      what: 'product',
      id,
      says: `Product ${id} shows ${inGrams(shown.get(id) ?? 0)} held; its movements add up to ${inGrams(held.of(id))}`,
    }));
}

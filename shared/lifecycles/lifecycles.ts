import { benchTime, heat, incident, joint, pickleBath, planVersion } from './bench-lifecycles.ts';
import type { Lifecycle, Move } from './lifecycle.ts';
import { hallmarkPacket, lot, payment, privateLink, stocktake, supplierOrder } from './paper-lifecycles.ts';
import { planSearch } from './search-lifecycle.ts';
import { commission, piece, quoteVersion } from './work-lifecycles.ts';

export type { Lifecycle, Move, Mover } from './lifecycle.ts';

/**
 * The life of every thing in the book: its states, and the only moves between them.
 *
 * Between two states there is at most one move. A return after handing over is no move: it is a new commission that
 * points to the old one. A heat that is cleared, and its joints that are sound, move in one step.
 */
export const LIFECYCLES = {
  commission,
  quote_version: quoteVersion,
  piece,
  plan_version: planVersion,
  heat,
  joint,
  incident,
  bench_time: benchTime,
  pickle_bath: pickleBath,
  lot,
  supplier_order: supplierOrder,
  stocktake,
  payment,
  hallmark_packet: hallmarkPacket,
  private_link: privateLink,
  plan_search: planSearch,
} as const;

export type Thing = keyof typeof LIFECYCLES;
export type GuardOf<T extends Thing> = Extract<(typeof LIFECYCLES)[T]['moves'][number], { guard: string }>['guard'];

/** Every move out of a state, whoever may make it; none from a state that is not the thing's. */
export function moves(thing: Thing, from: string): Move[] {
  const { moves: all }: Lifecycle = LIFECYCLES[thing];
  return all.filter((move) => move.from.includes(from));
}

/** The move between two states, if the life cycle has it. */
export function findMove(thing: Thing, from: string, to: string): Move | undefined {
  return moves(thing, from).find((move) => move.to === to);
}

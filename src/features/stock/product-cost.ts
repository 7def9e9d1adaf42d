import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { costLedger, type CostLedger, type CostsBefore, type StockEvent } from '../../../shared/stock/cost-ledger.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { CostedLedger } from '../../platform/db/tables.ts';
import { getSettings } from '../settings/index.ts';
import { costKept, costsKept, linesAfter, type CostedLine } from './kept-costs.store.ts';
import { toG } from './grams.ts';
import { lastUseIn } from './stock-movements.store.ts';

/** What a ledger says its lines cost, in the way the studio has chosen. */
export interface LineCosts {
  /** What is left, by product. */
  byProduct: Map<string, CostLedger>;
  /** Money to six places; undefined of a line that moved nothing, or of metal that is a client's. */
  costOf: (movementId: string) => string | undefined;
}

/** From what was reckoned last (costs of lines before are looked up one by one) to the last line there is. */
export function lineCosts(db: Db, ledger: CostedLedger): LineCosts & { lastLine: number } {
  const { stockCost } = getSettings(db);
  const kept = costsKept(db, ledger, stockCost);
  return reckon(linesAfter(db, ledger, kept.lastLine), stockCost, {
    ...kept,
    costOf: (id) => (kept.lastLine === 0 ? undefined : costKept(db, ledger, id)),
  });
}

/**
 * What every line of a ledger cost from its first on, read whole.
 *
 * @param until a day in the studio's zone: what was booked by its end; without it all
 */
export function wholeCosts(db: Db, ledger: CostedLedger, until?: string): LineCosts {
  const { stockCost, timeZone } = getSettings(db);
  const lines = linesAfter(db, ledger, 0);
  const booked = until === undefined ? lines : lines.filter(({ at }) => dateInZone(new Date(at), timeZone) <= until);
  return reckon(booked, stockCost, { states: {}, lastLine: 0, costOf: () => undefined });
}

/** What a gram of solder cost in a heat; undefined where it took none. */
export function solderCostPerGOfHeats(db: Db): (heatId: string) => Decimal | undefined {
  const { costOf } = lineCosts(db, 'solder');
  return (heatId) => {
    const use = lastUseIn(db, heatId);
    return use && new Decimal(costOf(use.id) ?? 0).div(toG(-use.onHandTenthMg));
  };
}

interface Kept {
  states: Readonly<Record<string, CostsBefore['state']>>;
  lastLine: number;
  costOf: CostsBefore['costOf'];
}

export function reckon(
  lines: readonly CostedLine[],
  method: Parameters<typeof costLedger>[1],
  { states, lastLine, costOf }: Kept,
): LineCosts & { lastLine: number } {
  const later = groupBy(lines, ({ productId }) => productId);
  const products = [...new Set([...Object.keys(states), ...later.keys()])];
  const byProduct = new Map(
    products.map((id): [string, CostLedger] => {
      const events = (later.get(id) ?? []).map(eventOf);
      const state = states[id];
      return [id, costLedger(events, method, state && { state, costOf })];
    }),
  );
  const costs = new Map([...byProduct.values()].flatMap((ledger) => [...ledger.costs]));
  return { byProduct, costOf: (id) => costs.get(id) ?? costOf(id), lastLine: lines.at(-1)?.line ?? lastLine };
}

function eventOf({ id, kind, tenthMg, reversesId, number, unitCostPerG, receivedOn }: CostedLine): StockEvent {
  return {
    id,
    tenthMg,
    ...(kind === 'receive' ? { delivery: { lot: number, costPerG: unitCostPerG, receivedOn } } : {}),
    ...(reversesId === null ? {} : { reverses: reversesId }),
  };
}

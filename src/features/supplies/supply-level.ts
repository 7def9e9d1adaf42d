import { Decimal, ZERO } from '../../../shared/decimal.ts';
import type { SupplyMovementRow, SupplyRow } from './supplies.store.ts';

const TENTH_MG_PER_G = 10_000;

type Unit = SupplyRow['unit'];

/** The whole units the book keeps of a quantity that people see: 0.1 mg, or pieces. */
export function unitsOf(unit: Unit, quantity: number): number {
  return unit === 'g' ? Math.round(quantity * TENTH_MG_PER_G) : quantity;
}

export function quantityOf(unit: Unit, units: number): number {
  return unit === 'g' ? units / TENTH_MG_PER_G : units;
}

/** For sentences. */
export function inUnit(unit: Unit, units: number): string {
  const quantity = quantityOf(unit, units);
  return unit === 'g' ? `${quantity} g` : `${quantity} ${quantity === 1 ? 'piece' : 'pieces'}`;
}

export interface SupplyLevel {
  onHandUnits: number;
  /** Of a gram or a piece; null until some came in. */
  averageCost: Decimal | null;
  /** In whole currency, exact. */
  value: Decimal;
  /** Used, and not put back. */
  outUnits: number;
}

/**
 * Adds a ledger up. The cost is the running average: what comes in moves it by its share of what is then there, what goes
 * out or is counted does not. What was reversed never was.
 */
export function levelOf(unit: Unit, ledger: readonly SupplyMovementRow[]): SupplyLevel {
  const reversed = new Set(ledger.map(({ reversesId }) => reversesId));
  let [onHandUnits, outUnits] = [0, 0];
  let averageCost: Decimal | null = null;
  for (const { id, kind, onHandUnits: units, unitCost } of ledger) {
    if (kind === 'reverse' || reversed.has(id)) continue;
    if (unitCost !== null) averageCost = moved({ averageCost, onHandUnits }, { units, cost: new Decimal(unitCost) });
    if (kind === 'use' || kind === 'put_back') outUnits -= units;
    onHandUnits += units;
  }
  return {
    onHandUnits,
    averageCost,
    value: averageCost?.times(onHandUnits).div(unitsOf(unit, 1)) ?? ZERO,
    outUnits,
  };
}

/** Counted up before anything came in, it is worth what the first delivery cost. */
function moved(
  { averageCost, onHandUnits }: Pick<SupplyLevel, 'averageCost' | 'onHandUnits'>,
  { units, cost }: { units: number; cost: Decimal },
): Decimal {
  if (averageCost === null || onHandUnits <= 0) return cost;
  return averageCost
    .times(onHandUnits)
    .plus(cost.times(units))
    .div(onHandUnits + units);
}

/** Whole packs to come above the order point; 0 where none is to be ordered. */
export function packsToOrder({ active, orderPointUnits, packUnits }: SupplyRow, onHandUnits: number): number {
  if (!active || orderPointUnits === null || onHandUnits > orderPointUnits) return 0;
  return Math.floor((orderPointUnits - onHandUnits) / packUnits) + 1;
}

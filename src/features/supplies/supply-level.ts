import { Decimal, ZERO } from '../../../shared/decimal.ts';
import type { SupplyMovementRow, SupplyRow, SupplySums } from './supplies.store.ts';

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

export interface SupplyLevel extends SupplySums {
  /** In whole currency, exact. */
  value: Decimal;
}

export function levelOf(unit: Unit, sums: SupplySums): SupplyLevel {
  return { ...sums, value: sums.averageCost?.times(sums.onHandUnits).div(unitsOf(unit, 1)) ?? ZERO };
}

/**
 * Adds a ledger up. The cost is the running average: what comes in moves it by its share of what is then there, what goes
 * out or is counted does not. What was reversed never was.
 */
export function sumsOf(ledger: readonly SupplyMovementRow[]): SupplySums {
  const reversed = new Set(ledger.map(({ reversesId }) => reversesId));
  return ledger
    .filter(({ id, kind }) => kind !== 'reverse' && !reversed.has(id))
    .reduce(withLine, { onHandUnits: 0, outUnits: 0, averageCost: null });
}

/** The same after one more line that reverses nothing. */
export function withLine(
  before: SupplySums,
  { kind, onHandUnits: units, unitCost }: Pick<SupplyMovementRow, 'kind' | 'onHandUnits' | 'unitCost'>,
): SupplySums {
  return {
    onHandUnits: before.onHandUnits + units,
    outUnits: kind === 'use' || kind === 'put_back' ? before.outUnits - units : before.outUnits,
    averageCost: unitCost === null ? before.averageCost : moved(before, { units, cost: new Decimal(unitCost) }),
  };
}

/** Counted up before anything came in, it is worth what the first delivery cost. */
function moved(
  { averageCost, onHandUnits }: Pick<SupplySums, 'averageCost' | 'onHandUnits'>,
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

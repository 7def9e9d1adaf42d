import type { Db } from '../../platform/db/client.ts';
import { listSupplies, type SupplyRow } from './supplies.store.ts';
import { levelOf, packsToOrder, quantityOf, type SupplyLevel } from './supply-level.ts';
import { sumsNow } from './supply-sums.ts';

export interface SupplyStock {
  supply: SupplyRow;
  /** In its unit. */
  onHand: number;
  level: SupplyLevel;
}

/** What there is of every supply, by name. */
export function supplyStock(db: Db): SupplyStock[] {
  return listSupplies(db, {})
    .map((supply) => {
      const level = levelOf(supply.unit, sumsNow(db, supply.id));
      return { supply, level, onHand: quantityOf(supply.unit, level.onHandUnits) };
    })
    .toSorted((a, b) => a.supply.name.localeCompare(b.supply.name));
}

/** Those at or under the order point that was typed for them, with the whole packs that come above it. */
export function suppliesToOrder(db: Db) {
  return supplyStock(db).flatMap(({ supply, onHand, level }) => {
    const packs = packsToOrder(supply, level.onHandUnits);
    const { unit, packUnits, orderPointUnits } = supply;
    if (packs === 0 || orderPointUnits === null) return [];
    return [
      {
        supply,
        onHand,
        packs,
        pack: quantityOf(unit, packUnits),
        orderPoint: quantityOf(unit, orderPointUnits),
        order: quantityOf(unit, packs * packUnits),
      },
    ];
  });
}

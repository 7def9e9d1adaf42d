import type { Db } from '../../platform/db/client.ts';
import { ledgerOf, listSupplies, type SupplyMovementRow, type SupplyRow, type SupplySums } from './supplies.store.ts';
import { inUnit, sumsOf } from './supply-level.ts';
import { sumsNow } from './supply-sums.ts';

interface SupplyFinding {
  what: 'supply' | 'supply_movement';
  id: string;
  says: string;
}

/** Adds the ledger of every supply up again, line by line, and tells everything in it that cannot be. */
export function auditSupplies(db: Db): { supplies: number; movements: number; findings: SupplyFinding[] } {
  const ledgers = listSupplies(db, {}).map((supply) => ({ supply, ledger: ledgerOf(db, supply.id) }));
  return {
    supplies: ledgers.length,
    movements: ledgers.reduce((total, { ledger }) => total + ledger.length, 0),
    findings: ledgers.flatMap(({ supply, ledger }) => [
      ...wrongSums(supply, { ledger, shown: sumsNow(db, supply.id) }),
      ...wrongReversals(ledger),
    ]),
  };
}

function wrongSums(
  { id: supplyId, name, unit }: SupplyRow,
  { ledger, shown }: { ledger: readonly SupplyMovementRow[]; shown: SupplySums },
): SupplyFinding[] {
  const findings: SupplyFinding[] = [];
  let sum = 0;
  for (const { id, onHandUnits } of ledger) {
    sum += onHandUnits;
    if (sum >= 0) continue;
    findings.push({ what: 'supply', id: supplyId, says: `${name} was at ${inUnit(unit, sum)} after movement ${id}` });
  }
  const cost = sumsOf(ledger).averageCost?.toFixed(6) ?? '0';
  const shownCost = shown.averageCost?.toFixed(6) ?? '0';
  if (shown.onHandUnits !== sum) {
    const says = `${name} shows ${inUnit(unit, shown.onHandUnits)}; its movements add up to ${inUnit(unit, sum)}`;
    findings.push({ what: 'supply', id: supplyId, says });
  }
  if (cost !== shownCost) {
    const says = `${name} shows an average cost of ${shownCost}; its movements come to ${cost}`;
    findings.push({ what: 'supply', id: supplyId, says });
  }
  return findings;
}

function wrongReversals(ledger: readonly SupplyMovementRow[]): SupplyFinding[] {
  const byId = new Map(ledger.map((movement) => [movement.id, movement]));
  return ledger.flatMap(({ id, reversesId, onHandUnits }): SupplyFinding[] => {
    if (reversesId === null || byId.get(reversesId)?.onHandUnits === -onHandUnits) return [];
    return [{ what: 'supply_movement', id, says: `Movement ${id} is not the opposite of the one it reverses` }];
  });
}

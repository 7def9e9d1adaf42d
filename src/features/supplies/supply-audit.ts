import type { Db } from '../../platform/db/client.ts';
import { ledgerOf, listSupplies, type SupplyMovementRow, type SupplyRow } from './supplies.store.ts';
import { inUnit, levelOf } from './supply-level.ts';

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
    findings: ledgers.flatMap(({ supply, ledger }) => [...wrongSums(supply, ledger), ...wrongReversals(ledger)]),
  };
}

function wrongSums({ id: supplyId, name, unit }: SupplyRow, ledger: readonly SupplyMovementRow[]): SupplyFinding[] {
  const findings: SupplyFinding[] = [];
  let sum = 0;
  for (const { id, onHandUnits } of ledger) {
    sum += onHandUnits;
    if (sum >= 0) continue;
    findings.push({ what: 'supply', id: supplyId, says: `${name} was at ${inUnit(unit, sum)} after movement ${id}` });
  }
  const shows = levelOf(unit, ledger).onHandUnits;
  if (shows === sum) return findings;
  const says = `${name} shows ${inUnit(unit, shows)}; its movements add up to ${inUnit(unit, sum)}`;
  return [...findings, { what: 'supply', id: supplyId, says }];
}

function wrongReversals(ledger: readonly SupplyMovementRow[]): SupplyFinding[] {
  const byId = new Map(ledger.map((movement) => [movement.id, movement]));
  return ledger.flatMap(({ id, reversesId, onHandUnits }): SupplyFinding[] => {
    if (reversesId === null || byId.get(reversesId)?.onHandUnits === -onHandUnits) return [];
    return [{ what: 'supply_movement', id, says: `Movement ${id} is not the opposite of the one it reverses` }];
  });
}

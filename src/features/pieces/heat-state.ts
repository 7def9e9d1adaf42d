import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writeJournal } from '../../platform/journal.ts';
import { heatsOf, updateHeat, type HeatRow } from './heats.store.ts';
import { jointsOf, updateJoint, type JointRow } from './joints.store.ts';

/** A flame was on it and nobody has said yet what came of it. */
export const UNDER_WAY = ['alight', 'cooling', 'in_pickle', 'looking'];

/** Writes a change of a heat and its line in the journal. */
export function writeHeat(tx: Db, by: WrittenBy, before: HeatRow, change: Partial<HeatRow>): HeatRow {
  const after = updateHeat(tx, before.id, change);
  writeJournal(tx, by, { what: 'heat', id: before.id, before, after });
  return after;
}

/** Writes a change of a joint and its line in the journal, under its piece. */
export function writeJoint(tx: Db, by: WrittenBy, before: JointRow, change: Partial<JointRow>): JointRow {
  const after = updateJoint(tx, before, change);
  writeJournal(tx, by, { what: 'joint', id: before.pieceId, before, after });
  return after;
}

/** Takes the solder off again: joints that were placed for a heat are open, and the lot is nobody's. */
export function unprime(tx: Db, by: WrittenBy, heat: HeatRow, state: string): HeatRow {
  if (heat.state === 'primed') {
    for (const joint of jointsOf(tx, heat.pieceId))
      if (joint.state === 'placed' && heat.joints.includes(joint.jointId)) writeJoint(tx, by, joint, { state: 'open' });
  }
  return writeHeat(tx, by, heat, { state, lotId: null, readiness: null, primedBy: null, flux: null });
}

/** Heats that will not be lit any more. */
export function skipHeatsLeft(tx: Db, by: WrittenBy, pieceId: string): void {
  for (const heat of heatsOf(tx, pieceId, ['laid_out', 'primed', 'on_hold'])) unprime(tx, by, heat, 'skipped');
}

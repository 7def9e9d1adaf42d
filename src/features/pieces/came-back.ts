import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { jointsOf, putJoint, type JointRow } from './joints.store.ts';
import * as store from './pieces.store.ts';
import { isMade } from './true-state.ts';

/**
 * A piece of our own that came back starts as it left: by its design, its joints with the solder that is really in them and what is
 * known of their cadmium.
 *
 * @param piece the first of a repair whose commission points to the earlier piece
 */
export function startAsItLeft(tx: Db, by: WrittenBy, piece: store.PieceRow, earlierId: string): void {
  const earlier = store.findCurrentDesign(tx, earlierId);
  if (!earlier) return;
  const rows = new Map(jointsOf(tx, earlierId).map((row) => [row.jointId, row]));
  const body = withWhatIsMade(expandDesign(earlier.body).design, rows);
  const at = by.at.toISOString();
  const copy = store.insertDesign(tx, {
    ...earlier,
    id: newId(by.at),
    pieceId: piece.id,
    number: 1,
    body,
    madeBy: by.personId ?? earlier.madeBy,
    createdAt: at,
  });
  writeJournal(tx, by, { what: 'design', id: copy.id, after: copy });
  // The heats it was made in are of the earlier piece.
  for (const row of rows.values()) putJoint(tx, { ...row, pieceId: piece.id, heatId: null });
}

/** So that a later version of the design says of each joint what is in it. */
function withWhatIsMade(design: Design, rows: ReadonlyMap<string, JointRow>): Design {
  const joints = design.joints.map(({ made: _made, ...joint }) => {
    const row = rows.get(joint.id);
    return row && isMade(row)
      ? { ...joint, made: { solder: row.solder ?? ('unknown' as const), cadmiumStanding: row.cadmiumStanding } }
      : joint;
  });
  return { ...design, joints };
}

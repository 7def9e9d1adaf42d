import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writeHeat, writeJoint } from './heat-state.ts';
import { findAlight, findHeat, type HeatRow } from './heats.store.ts';
import { findJoint, type JointRow } from './joints.store.ts';
import { writePiece } from './piece-state.ts';
import { findPiece, type PieceRow } from './pieces.store.ts';

/** A change as the journal has it. */
export interface WrittenChange {
  what: string;
  before: unknown;
  after: unknown;
}

/** Which changes of a piece's life can be written back: those of a state, not what was booked or opened. */
export const TAKEN_BACK = ['heat', 'joint', 'piece'];

/**
 * Writes a record back to what it was before a change, as its next version.
 *
 * @returns what stands in the way, in words: it is no longer what the change left, or another flame burns
 */
export function takeBackChange(tx: Db, by: WrittenBy, { what, before, after }: WrittenChange): string | undefined {
  switch (what) {
    case 'heat': {
      const [old, left] = [before as HeatRow, after as HeatRow];
      const now = findHeat(tx, left.id);
      if (!now || !isSame(now, left)) return `H${left.number} has changed since`;
      if (old.state === 'alight' && otherFlame(tx, old, by)) return 'another heat is alight now';
      writeHeat(tx, by, now, withoutVersion(old));
      return undefined;
    }
    case 'joint': {
      const [old, left] = [before as JointRow, after as JointRow];
      const now = findJoint(tx, left.pieceId, left.jointId);
      if (JSON.stringify(now) !== JSON.stringify(left)) return `joint ${left.jointId} has changed since`;
      writeJoint(tx, by, now!, old);
      return undefined;
    }
    default: {
      const [old, left] = [before as PieceRow, after as PieceRow];
      const now = findPiece(tx, left.id);
      if (!now || !isSame(now, left)) return `piece ${left.number} has changed since`;
      writePiece(tx, by, now, withoutVersion(old));
      return undefined;
    }
  }
}

/** One flame at a time, also where a flame that was put out is lit again by taking that back. */
function otherFlame(tx: Db, heat: HeatRow, { at }: WrittenBy): boolean {
  const { litBy, benchId } = heat;
  return litBy !== null && findAlight(tx, heat, { personId: litBy, benchId, at: at.toISOString() }) !== undefined;
}

/** Whatever it was called in between, it is again what the change left. */
function isSame<Row extends { version: number }>(now: Row, left: Row): boolean {
  return JSON.stringify(withoutVersion(now)) === JSON.stringify(withoutVersion(left));
}

function withoutVersion<Row extends { version: number }>({ version: _version, ...row }: Row): Omit<Row, 'version'> {
  return row;
}

import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { notFound } from '../../platform/http/problem.ts';
import { dateInZone } from '../../platform/clock.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { lateDate } from '../stock/index.ts';
import { UNDER_WAY, writeJoint } from './heat-state.ts';
import { heatsOf } from './heats.store.ts';
import { anyOpenIncident } from './incidents.store.ts';
import type { JointMove, CadmiumFinding } from './joints.schema.ts';
import { findJoint, type JointRow } from './joints.store.ts';
import { holdToFieldsOfMove, holdToMissing } from './move-fields.ts';
import { getPiece } from './piece-reads.ts';
import { showJoint } from './piece-reply.ts';

export type JointService = ReturnType<typeof createJointService>;

type Sent = z.infer<typeof JointMove>;

const EXTRAS = ['lookedAt', 'cleanedAndRefitted'];
const TAKEN: Readonly<Record<string, readonly string[]>> = {
  'looked-at-good': ['lookedAt'],
  'cleaned-and-refitted': ['cleanedAndRefitted'],
};

export function createJointService({ db, clock }: Platform) {
  return {
    /** Moves that a person makes by hand; to be placed, sound, doubtful in a heat are that heat's moves. */
    move(actor: Actor, pieceId: string, jointId: string, sent: Sent) {
      return db.transaction((tx) => {
        const before = getJoint(tx, pieceId, jointId);
        const { guard = '' } = holdToLifecycle('joint', actor, { state: before.state, sent, now: clock.now() });
        holdToFieldsOfMove(sent, EXTRAS, TAKEN[guard] ?? []);
        holdToMissing(`joint ${jointId}`, sent.to, missingFor(tx, guard, before, sent));
        const by = writtenBy(actor, clock.now(), sent.deviceId);
        // What was opened or cleaned has nothing on it that a plan must keep to.
        const cleaned = sent.to === 'open' ? { heatId: null, solder: null } : {};
        return showJoint(actor, writeJoint(tx, by, before, { state: sent.to, ...cleaned }));
      });
    },

    /** Settles the cadmium standing of a joint that came with the piece. */
    addCadmiumDocument(actor: Actor, pieceId: string, jointId: string, { finding, ...document }: z.infer<typeof CadmiumFinding>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = getJoint(tx, pieceId, jointId);
        holdFields(lateDate('/datedOn', document.datedOn, dateInZone(by.at, getSettings(tx).timeZone)), actor.confirmed);
        const after = writeJoint(tx, by, before, {
          cadmiumStanding: finding,
          cadmiumDocument: { ...document, personId: actor.personId },
        });
        return showJoint(actor, after);
      });
    },
  };
}

function missingFor(tx: Db, guard: string, { pieceId, jointId }: JointRow, sent: Sent): string[] {
  const inFire = heatsOf(tx, pieceId, ['primed', ...UNDER_WAY]).map(
    ({ number, state }) => `H${number} is ${state.replaceAll('_', ' ')}: bring it to its end first`,
  );
  if (inFire.length > 0) return inFire;
  switch (guard) {
    case 'looked-at-good':
      return sent.lookedAt ? [] : ['look at it (lookedAt)'];
    case 'reflow-seen':
      return anyOpenIncident(tx, pieceId) ? [] : [`note what went wrong with ${jointId} first (POST /incidents)`];
    case 'cleaned-and-refitted':
      return sent.cleanedAndRefitted ? [] : ['clean and refit it (cleanedAndRefitted)'];
    case 'opened-on-purpose':
      return [
        ...(sent.reason === undefined ? ['say why it is opened (reason)'] : []),
        ...(mayBeOpened(tx, pieceId) ? [] : ['the piece is past soldering: note an incident, then plan again']),
      ];
    default:
      return ['its heat does that'];
  }
}

/** While heats may still follow. */
function mayBeOpened(tx: Db, pieceId: string): boolean {
  return ['drawn', 'cut', 'soldering', 'hurt'].includes(getPiece(tx, pieceId).state);
}

function getJoint(db: Db, pieceId: string, jointId: string): JointRow {
  const piece = getPiece(db, pieceId);
  const row = findJoint(db, pieceId, jointId);
  if (!row) throw notFound(`joint of ${piece.number}`, jointId);
  return row;
}

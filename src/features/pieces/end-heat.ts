import type { Db } from '../../platform/db/client.ts';
import { invalidFields, type FieldError } from '../../platform/http/problem.ts';
import { jointsInFire } from './heat-context.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';
import { unprime, writeHeat, writeJoint } from './heat-state.ts';
import { heatsAfter, type HeatRow } from './heats.store.ts';
import { findJoint, jointsOf, type JointRow } from './joints.store.ts';
import { holdToMissing } from './move-fields.ts';
import { openIncident } from './open-incident.ts';
import { getPiece } from './piece-reads.ts';
import { nameOf } from './prime-heat.ts';
import { isMade } from './true-state.ts';
import { useSolder } from './use-solder.ts';

/** A joint that was predicted to melt in part or whole has to be looked at. */
export function doubtSoftened(tx: Db, { by, heat: { row, checked } }: HeatMoveAsked): void {
  for (const { joint, verdict } of checked?.earlierJoints ?? []) {
    if (verdict === 'stays_solid' || verdict === 'may_soften') continue;
    const found = findJoint(tx, row.pieceId, joint);
    if (found?.state === 'sound') writeJoint(tx, by, found, { state: 'doubtful' });
  }
}

/** All went well: the joints are sound, with this solder in them, and what was planned is used. */
export function clearHeat(tx: Db, asked: HeatMoveAsked): HeatRow {
  const { by, heat, sent } = asked;
  const { row } = heat;
  const inFire = jointsInFire(tx, heat);
  const doubtful = inFire.filter(({ state }) => state === 'doubtful');
  const moved = inFire.filter(({ state }) => state === 'moved');
  holdToMissing(nameOf(heat), sent.to, [
    ...(sent.outcome === 'flowed' || (row.purpose === 'anneal' && sent.outcome === undefined)
      ? []
      : ['say that it flowed (outcome), or that it is spoilt']),
    ...(sent.jointsSound ? [] : ['look at the joints (jointsSound)']),
    ...(doubtful.length === 0 || sent.earlierJointsLookedAt
      ? []
      : [`look at ${doubtful.map(({ jointId }) => jointId).join(', ')} (earlierJointsLookedAt)`]),
    ...moved.map(({ jointId }) => `joint ${jointId} has moved`),
  ]);
  const { tenthMg, solder } = useSolder(tx, asked, () => 'sound');
  for (const joint of doubtful) writeJoint(tx, by, joint, { state: 'sound' });
  if (row.purpose === 'solder')
    for (const joint of ownJoints(tx, row))
      writeJoint(tx, by, joint, { state: 'sound', heatId: row.id, solder, cadmiumStanding: 'no' });
  return writeHeat(tx, by, row, { state: 'cleared', outcome: sent.outcome ?? 'flowed', usedTenthMg: tenthMg });
}

/** Something went wrong: an incident is opened, the piece is hurt, what was used is booked, and later heats wait. */
export function spoilHeat(tx: Db, asked: HeatMoveAsked): HeatRow {
  const { by, heat, sent } = asked;
  const { row } = heat;
  const wasLookedAt = row.state === 'looking';
  holdToMissing(nameOf(heat), sent.to, spoiltMissing(asked));
  holdJointsNamed(tx, asked);
  if (row.state === 'alight') doubtSoftened(tx, asked);
  const used = useSolder(tx, asked, (id) => (stateAfter(asked, id, wasLookedAt) === 'sound' ? 'sound' : 'spoilt'));
  if (row.purpose === 'solder') {
    for (const joint of ownJoints(tx, row)) {
      const state = stateAfter(asked, joint.jointId, wasLookedAt);
      const isInIt = state !== 'open';
      // With nothing new used, what an earlier try left on it is in it still.
      const solder = used.tenthMg > 0 ? used.solder : joint.solder;
      writeJoint(tx, by, joint, { state, heatId: isInIt ? row.id : null, solder, cadmiumStanding: 'no' });
    }
  }
  for (const id of sent.incident!.movedJoints ?? []) writeJoint(tx, by, findJoint(tx, row.pieceId, id)!, { state: 'moved' });
  const after = writeHeat(tx, by, row, {
    state: 'spoilt',
    outcome: sent.outcome!,
    usedTenthMg: used.tenthMg,
    endedAt: row.endedAt ?? sent.occurredAt,
  });
  for (const later of heatsAfter(tx, row, ['laid_out', 'primed'])) unprime(tx, by, later, 'on_hold');
  const { kind, jointId, note } = sent.incident!;
  openIncident(tx, by, {
    piece: getPiece(tx, row.pieceId),
    kind,
    heatId: row.id,
    jointId,
    note,
    seenAt: sent.occurredAt,
    solderUsedTenthMg: used.tenthMg,
  });
  return after;
}

function ownJoints(tx: Db, { pieceId, joints }: HeatRow): JointRow[] {
  return jointsOf(tx, pieceId).filter(({ jointId }) => joints.includes(jointId));
}

/** What flowed is in the joint; whether it is sound only a look says. */
function stateAfter({ sent: { outcome, flowedJoints } }: HeatMoveAsked, jointId: string, wasLookedAt: boolean): string {
  const allFlowed = outcome === 'flowed' || outcome === 'earlier_joint_moved';
  const flowed = flowedJoints?.includes(jointId) ?? allFlowed;
  if (flowed) return wasLookedAt ? 'sound' : 'doubtful';
  return outcome === 'part_flowed' || outcome === 'overheated' ? 'doubtful' : 'open';
}

function spoiltMissing({ heat: { row }, sent }: HeatMoveAsked): string[] {
  const missing: string[] = [];
  if (sent.outcome === undefined) missing.push('say what happened (outcome)');
  if (sent.outcome === 'flowed' && row.state === 'looking')
    missing.push('a heat that flowed and is sound is cleared: say what went wrong (outcome)');
  if (!sent.incident) missing.push('say what went wrong (incident)');
  if (sent.outcome === 'earlier_joint_moved' && (sent.incident?.movedJoints ?? []).length === 0)
    missing.push('say which joints moved (incident.movedJoints)');
  return missing;
}

function holdJointsNamed(tx: Db, { heat: { row }, sent }: HeatMoveAsked): void {
  const joints = new Map(jointsOf(tx, row.pieceId).map((joint) => [joint.jointId, joint]));
  const errors: FieldError[] = [];
  const { jointId, movedJoints = [] } = sent.incident!;
  if (jointId !== undefined && !joints.has(jointId))
    errors.push({ pointer: '/incident/jointId', detail: 'This piece has no such joint.', given: jointId });
  for (const [index, id] of movedJoints.entries()) {
    const joint = joints.get(id);
    if (!joint || !isMade(joint) || row.joints.includes(id))
      errors.push({ pointer: `/incident/movedJoints/${index}`, detail: 'Only a joint made earlier can have moved.', given: id });
  }
  for (const [index, id] of (sent.flowedJoints ?? []).entries()) {
    if (!row.joints.includes(id))
      errors.push({ pointer: `/flowedJoints/${index}`, detail: 'This heat does not make that joint.', given: id });
  }
  if (new Set(movedJoints).size < movedJoints.length)
    errors.push({ pointer: '/incident/movedJoints', detail: 'Name each joint once.' });
  if (errors.length > 0) throw invalidFields(errors);
}

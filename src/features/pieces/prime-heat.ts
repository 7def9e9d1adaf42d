import { CAUTIONS } from '../../../shared/cautions/caution-table.ts';
import type { Db } from '../../platform/db/client.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { holdLotFit } from '../stock/index.ts';
import { findBenchOf, findOpenBench } from '../studio-days/index.ts';
import { holdFireFreeOfCadmium } from './cadmium-in-fire.ts';
import { cautionsDue } from './heat-cautions-due.ts';
import { jointsInFire, unknownSolderIn, type HeatContext } from './heat-context.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';
import { writeHeat, writeJoint } from './heat-state.ts';
import { findAlight, putTick, type HeatRow } from './heats.store.ts';
import { findJoint, jointsOf } from './joints.store.ts';
import { holdToMissing } from './move-fields.ts';
import { workCalledOff } from './piece-guards.ts';
import { writePiece } from './piece-state.ts';
import { findCurrentDesign } from './pieces.store.ts';
import { isMade } from './true-state.ts';
import { yesMissing } from './tutors-yes.ts';
import { sayWaysOn } from './when-short.ts';

/** Readies a heat: joint fitted, flux on, solder placed from a named lot, protections in place, cautions read. */
export function primeHeat(tx: Db, asked: HeatMoveAsked): HeatRow {
  const { actor, by, heat, sent } = asked;
  const { row, piece } = heat;
  holdFire(tx, heat);
  const missing = [
    ...planMissing(tx, asked),
    ...jointsMissing(tx, heat),
    ...readinessMissing(tx, asked),
    ...untested(tx, asked),
    ...tooHot(heat),
  ];
  if (row.productId !== null && sent.lotId === undefined) missing.push('name the lot the solder is taken from (lotId)');
  if (row.productId === null && sent.lotId !== undefined) missing.push('an anneal takes no solder: leave the lot out');
  // A lot that must not be heated is told before what is merely unfinished.
  if (row.productId !== null && sent.lotId !== undefined) holdLot(tx, asked, sent.lotId);
  holdToMissing(nameOf(heat), sent.to, missing);
  if (row.purpose === 'solder') for (const jointId of row.joints) place(tx, asked, jointId);
  const { cautionsRead = [], occurredAt } = sent;
  for (const cautionId of cautionsRead) {
    const words = CAUTIONS.find(({ id }) => id === cautionId)?.words ?? null;
    putTick(tx, { heatId: row.id, personId: actor.personId, cautionId, at: occurredAt, words });
  }
  const after = writeHeat(tx, by, row, {
    state: 'primed',
    lotId: sent.lotId ?? null,
    readiness: {
      jointFitted: true,
      fluxOn: true,
      protectionsPlaced: sent.protectionsPlaced ?? false,
      ...(sent.unknownSolder && { unknownSolder: sent.unknownSolder }),
      cautionsRead,
      at: occurredAt,
    },
    primedBy: actor.personId,
    flux: sent.flux ?? null,
  });
  if (piece.state === 'cut') writePiece(tx, by, piece, { state: 'soldering', stateReason: null });
  return after;
}

/** Lights a heat that is ready: one flame at a time for a person and for a piece, and a student's under a tutor's yes. */
export function lightHeat(tx: Db, asked: HeatMoveAsked): HeatRow {
  const { actor, by, heat, sent } = asked;
  holdFire(tx, heat);
  if (heat.row.lotId !== null) holdLot(tx, asked, heat.row.lotId);
  const benchId = benchLitAt(tx, actor.personId, sent.benchId);
  holdToMissing(nameOf(heat), sent.to, planMissing(tx, asked));
  holdOneFlame(tx, asked, benchId);
  return writeHeat(tx, by, heat.row, { state: 'alight', litBy: actor.personId, alightAt: sent.occurredAt, benchId });
}

/** The bench said, or the one that this person works at; null where the book has no such bench. */
function benchLitAt(tx: Db, personId: string, said: string | undefined): string | null {
  if (said === undefined) return findBenchOf(tx, personId)?.id ?? null;
  if (findOpenBench(tx, said)) return said;
  throw invalidFields([{ pointer: '/benchId', detail: 'There is no bench with this id that is worked at.', given: said }]);
}

/** One flame at a time at a bench, for a person and on a piece. What was lit only later, by its own clock, stands against nothing. */
function holdOneFlame(tx: Db, { actor, heat, sent }: HeatMoveAsked, benchId: string | null): void {
  const { personId } = actor;
  const alight = findAlight(tx, heat.row, { personId, benchId, at: sent.occurredAt });
  if (!alight) return;
  const { heatId, litBy, bench, alightAt } = alight;
  const number = `${alight.piece} H${alight.number}`;
  const burning = bench === null ? `${number} is alight, lit by ${litBy}` : `${number} is alight at ${bench}, lit by ${litBy}`;
  throw new Problem('condition-not-met', `Cannot move ${nameOf(heat)} to alight: ${burning}: one flame at a time at a bench`, {
    missing: [burning],
    alight: { heatId, number, litBy, bench, alightAt },
  });
}

export function nameOf({ piece, row }: HeatContext): string {
  return `${piece.number} H${row.number}`;
}

function holdFire(tx: Db, heat: HeatContext): void {
  holdFireFreeOfCadmium(tx, heat.design, { heat: nameOf(heat), inFire: heat.partsInFire.map(({ id }) => id) });
}

function holdLot(tx: Db, asked: HeatMoveAsked, lotId: string): void {
  const { id: heatId, productId, plannedTenthMg } = asked.heat.row;
  const at = new Date(asked.sent.occurredAt);
  sayWaysOn(tx, asked, () => holdLotFit(tx, { lotId, productId: productId!, heatId, tenthMg: plannedTenthMg, at }));
}

function planMissing(tx: Db, { actor, heat, sent }: HeatMoveAsked): string[] {
  const { piece, plan } = heat;
  const missing = workCalledOff(tx, piece, sent);
  if (plan.state !== 'in_use') missing.push(`plan ${plan.number} is not in use`);
  if (findCurrentDesign(tx, piece.id)?.id !== plan.designId) missing.push('the design has changed since its plan: plan again');
  if (piece.state === 'drawn') missing.push(`${piece.number} is not cut: issue its metal first`);
  else if (piece.state !== 'cut' && piece.state !== 'soldering')
    missing.push(`piece ${piece.number} is ${piece.state.replaceAll('_', ' ')}`);
  return [...missing, ...yesMissing(tx, actor, heat, new Date(sent.occurredAt))];
}

function jointsMissing(tx: Db, { row, checked }: HeatContext): string[] {
  const states = new Map(jointsOf(tx, row.pieceId).map((joint) => [joint.jointId, joint]));
  const targets = row.joints.flatMap((id) => {
    const joint = states.get(id)!;
    const isFit = row.purpose === 'anneal' ? isMade(joint) : joint.state === 'open' || joint.state === 'moved';
    return isFit ? [] : [`joint ${id} is ${joint.state}`];
  });
  // What the plan says of this heat holds only with the joints in the fire that it counts on.
  const earlier = (checked?.earlierJoints ?? []).flatMap(({ joint: id }) => {
    const joint = states.get(id)!;
    return isMade(joint) ? [] : [`joint ${id} is ${joint.state}: the plan has it made before`];
  });
  return [...targets, ...earlier];
}

function readinessMissing(tx: Db, { actor, heat, sent }: HeatMoveAsked): string[] {
  const missing: string[] = [];
  if (!sent.jointFitted) missing.push('the joint is not said to be clean and fitted (jointFitted)');
  if (!sent.fluxOn) missing.push('the flux is not on (fluxOn)');
  if (!sent.protectionsPlaced && (heat.planned.protections ?? []).length > 0)
    missing.push('the protections are not in place (protectionsPlaced)');
  if (heat.partsInFire.some(({ hollow }) => hollow) && !sent.ventOpen)
    missing.push('see that the vent of the hollow form is open (ventOpen)');
  const at = new Date(sent.occurredAt);
  const due = cautionsDue(tx, heat, { personId: actor.personId, at, flux: sent.flux }).filter((caution) => caution.due);
  const unread = due.filter(({ id }) => !sent.cautionsRead?.includes(id)).map(({ id }) => id);
  if (unread.length > 0) missing.push(`read the cautions ${unread.join(', ')} (cautionsRead)`);
  return missing;
}

/** Of solder nobody knows the worst is assumed; the client has to know it, and lead has to be looked for. */
function untested(tx: Db, { heat, sent: { unknownSolder } }: HeatMoveAsked): string[] {
  const unknown = unknownSolderIn(jointsInFire(tx, heat));
  if (unknown.length === 0 || unknownSolder?.clientsYes) return [];
  return [
    `nobody knows the solder of ${unknown.join(', ')}: say which tests were made of it, and that the client said yes to the worst (unknownSolder)`,
  ];
}

/** A stone, enamel, wood: what has a limit of its own is not heated over it. */
function tooHot({ partsInFire, checked }: HeatContext): string[] {
  const limits = new Map(partsInFire.map(({ id, maxC }) => [id, maxC]));
  return (checked?.parts ?? [])
    .filter(({ part, verdict }) => verdict === 'over_limit' && limits.get(part) !== undefined)
    .map(
      ({ part, peakC, limitC }) =>
        `${part} is predicted to reach ${Math.round(peakC)} °C, over its limit of ${limitC} °C: take it out, or plan again`,
    );
}

/** A joint that had moved was cleaned and refitted, so nothing of what was in it counts any more. */
function place(tx: Db, { by, heat: { row } }: HeatMoveAsked, jointId: string): void {
  const joint = findJoint(tx, row.pieceId, jointId)!;
  const open = joint.state === 'moved' ? writeJoint(tx, by, joint, { state: 'open', heatId: null, solder: null }) : joint;
  writeJoint(tx, by, open, { state: 'placed' });
}

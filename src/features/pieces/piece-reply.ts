import type { z } from 'zod';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { toG } from '../stock/index.ts';
import type { HistoryReply, JointReply } from './joints.schema.ts';
import { historyOf, jointsOf, type JointRow } from './joints.store.ts';
import type { PieceReply, PieceSummary } from './pieces.schema.ts';
import { findCurrentDesign, findRemakeOf, type PieceRow } from './pieces.store.ts';
import { photosOf } from './photos-of.ts';
import { findPlanInUse } from './plans.store.ts';

export function summarisePiece(actor: Actor, row: PieceRow): z.infer<typeof PieceSummary> {
  const { metalIssuedTenthMg, metalReturnedTenthMg, weighedTenthMg, builtBy: _builtBy, ...piece } = row;
  const allowed = allowedMoves('piece', actor, { state: row.state });
  return {
    ...piece,
    state: row.state as z.infer<typeof PieceSummary>['state'],
    whereabouts: row.whereabouts as z.infer<typeof PieceSummary>['whereabouts'],
    metalIssuedG: inG(metalIssuedTenthMg),
    metalReturnedG: inG(metalReturnedTenthMg),
    weighedG: inG(weighedTenthMg),
    allowedMoves: row.state === 'set_aside' ? allowed.filter((to) => to === row.stateBeforeAside) : allowed,
  };
}

export function showPiece(db: Db, actor: Actor, row: PieceRow): z.infer<typeof PieceReply> {
  const plan = findPlanInUse(db, row.id);
  return {
    ...summarisePiece(actor, row),
    computedG: computedG(db, row.id),
    designNumber: findCurrentDesign(db, row.id)?.number ?? null,
    planInUse: plan ? { id: plan.id, number: plan.number } : null,
    remakePieceId: findRemakeOf(db, row.id)?.id ?? null,
    joints: jointsOf(db, row.id).map((joint) => showJoint(actor, joint)),
    solderHistory: showHistory(db, row.id),
    photos: photosOf(db, 'piece', row.id),
  };
}

/** What the parts of a piece weigh by its design, without solder. */
export function computedG(db: Db, pieceId: string): number | null {
  const design = findCurrentDesign(db, pieceId);
  return design ? pieceWeight(design.body).totalG : null;
}

export function showJoint(actor: Actor, row: JointRow): z.infer<typeof JointReply> {
  return {
    joint: row.jointId,
    state: row.state as z.infer<typeof JointReply>['state'],
    heatId: row.heatId,
    solder: row.solder && { id: row.solder.id, solidusC: row.solder.solidusC, liquidusC: row.solder.liquidusC },
    cadmiumStanding: row.cadmiumStanding,
    cadmiumDocument: row.cadmiumDocument,
    // To be placed, or unplaced, is its heat's doing.
    allowedMoves: allowedMoves('joint', actor, { state: row.state }).filter(() => row.state !== 'open' && row.state !== 'placed'),
  };
}

function showHistory(db: Db, pieceId: string): z.infer<typeof HistoryReply>[] {
  return historyOf(db, pieceId).map(({ history, heatNumber, code, name, lotNumber }) => ({
    joint: history.jointId,
    heatId: history.heatId,
    heat: `H${heatNumber}`,
    solder: code,
    solderName: name,
    lot: lotNumber,
    solidusC: history.solidusC,
    liquidusC: history.liquidusC,
    usedG: toG(history.tenthMg),
    outcome: history.outcome as 'sound' | 'spoilt',
    at: history.at,
  }));
}

function inG(tenthMg: number | null): number | null {
  return tenthMg === null ? null : toG(tenthMg);
}

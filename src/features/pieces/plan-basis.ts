import type { Solder } from '../../../shared/design/solder.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import { offeredSolders, toG } from '../stock/index.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { jointsOf, type JointRow } from './joints.store.ts';
import * as pieces from './pieces.store.ts';
import { heldFor, type PlanRow } from './plans.store.ts';
import { trueState, type TrueState } from './true-state.ts';

/** What a plan is made from: the design, and what is truly made of it. */
export interface PlanBasis {
  design: pieces.DesignRow;
  state: TrueState;
}

/** @throws {Problem} condition-not-met while the piece has no design */
export function planBasis(db: Db, pieceId: string, solders: readonly Solder[]): PlanBasis {
  const design = pieces.findCurrentDesign(db, pieceId);
  if (!design) throw new Problem('condition-not-met', 'Cannot plan this piece: it has no design yet');
  return { design, state: trueState(design.body, jointsOf(db, pieceId), solders) };
}

/** What a plan was made from, when it was. */
export function basisOfPlan(db: Db, { designId, pieceId, madeJoints, solders }: PlanRow): PlanBasis {
  const design = pieces.findDesign(db, designId)!;
  const now = new Map(jointsOf(db, pieceId).map((row) => [row.jointId, row]));
  const then = expandDesign(design.body).design.joints.map(({ id, made }): JointRow => {
    const found = madeJoints.find(({ joint }) => joint === id);
    const solder = !found || found.solder === 'unknown' ? null : found.solder;
    return {
      pieceId,
      jointId: id,
      state: !found ? 'open' : found.doubtful ? 'doubtful' : 'sound',
      // One that was not entered as made had been made in a heat.
      heatId: found && !made ? (now.get(id)?.heatId ?? null) : null,
      solder,
      cadmiumStanding: now.get(id)?.cadmiumStanding ?? 'no',
      cadmiumDocument: null,
    };
  });
  return { design, state: trueState(design.body, then, solders) };
}

/** What the drawer offers: what is free, and what is held for this very piece. */
export function soldersFor(db: Db, now: Date, pieceId?: string): Solder[] {
  const held = pieceId === undefined ? new Map<string, number>() : heldFor(db, pieceId);
  const today = dateInZone(now, getSettings(db).timeZone);
  return offeredSolders(db, today).map(
    ({ productId, name: _name, form: _form, pricePerG: _pricePerG, availableG = 0, ...solder }) => ({
      ...solder,
      availableG: availableG + toG(held.get(productId) ?? 0),
    }),
  );
}

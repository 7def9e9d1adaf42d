import { findMove } from '../../../shared/lifecycles/lifecycles.ts';
import type { Db } from '../../platform/db/client.ts';
import { effectiveRoles, type Actor } from '../../platform/http/actor.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import type { z } from 'zod';
import { issuedToPiece } from '../stock/index.ts';
import { UNDER_WAY } from './heat-state.ts';
import { heatsOf, heatsOfPlan } from './heats.store.ts';
import { anyOpenIncident } from './incidents.store.ts';
import { jointsOf } from './joints.store.ts';
import { computedG } from './piece-reply.ts';
import { LOOK_OVER, type PieceMove } from './pieces.schema.ts';
import { hasFinalPhoto } from './photos-of.ts';
import { findCommission, rolesOfActive, type PieceRow } from './pieces.store.ts';
import { findPlanInUse } from './plans.store.ts';

export interface PieceMoveAsked {
  actor: Actor;
  row: PieceRow;
  sent: z.infer<typeof PieceMove>;
}

/** A final weight further from the computed one than this share is asked about. */
const WEIGHT_OFF_FRACTION = 0.15;
/** Metal issued over so much of the computed weight is asked about: twice what offcuts, filings and losses at their most come to. */
const ISSUED_MOST_FACTOR = 3;

/** What is still missing before a piece may make a move; each a phrase. */
export function missingForPieceMove(tx: Db, guard: string, asked: PieceMoveAsked): string[] {
  const { row, sent } = asked;
  const underWay = heatsOf(tx, row.id, UNDER_WAY);
  const heatFirst = underWay.map(({ number, state }) => `H${number} is ${state.replaceAll('_', ' ')}: bring it to its end first`);
  switch (guard) {
    case 'metal-issued':
      return [
        ...workCalledOff(tx, row, sent),
        ...(sent.metalIssuedG !== undefined || isRepair(tx, row) || issuedToPiece(tx, row.id).issuedTenthMg > 0
          ? []
          : ['say how much metal was issued (metalIssuedG)']),
      ];
    case 'first-heat-primed':
      return heatsOf(tx, row.id, ['primed', ...UNDER_WAY]).length > 0
        ? []
        : ['it goes there by itself when its first heat is primed'];
    case 'joints-sound-heats-done':
      return [...jointsNotSound(tx, row), ...heatsLeft(tx, row)];
    case 'no-heats':
      return [
        ...jointsNotSound(tx, row),
        ...(heatsOf(tx, row.id, ['laid_out', 'on_hold', 'primed', ...UNDER_WAY]).length > 0 ? ['its plan has heats'] : []),
      ];
    case 'comes-as-made':
      return isRepair(tx, row) ? unmadeJoints(tx, row) : ['only a repair comes as a made piece'];
    case 'sent-out':
      return sent.sentTo === undefined ? ['say where it goes (sentTo)'] : [];
    case 'back-and-weighed':
      return [...(sent.weighedG === undefined ? ['weigh it (weighedG)'] : []), ...notLookedOver(sent.lookedOver)];
    case 'look-over-done':
      return [...notLookedOver(sent.lookedOver), ...doubtfulJoints(tx, row), ...sameEyes(tx, asked)];
    case 'weight-photo-label':
      return [
        ...(sent.weighedG === undefined ? ['weigh it (weighedG)'] : []),
        ...(sent.photoTaken || hasFinalPhoto(tx, row.id)
          ? []
          : ['add a photo of it as it is finished (POST /photos), or say that one is kept elsewhere (photoTaken)']),
        ...(sent.labelled ? [] : ['label it (labelled)']),
        ...doubtfulJoints(tx, row),
      ];
    case 'commission-handed-over':
      return ['handed_over', 'settled'].includes(findCommission(tx, row.commissionId)!.state)
        ? []
        : ['its commission is not handed over'];
    case 'incident-names-it':
      return anyOpenIncident(tx, row.id) ? [] : ['note what went wrong first (POST /incidents)'];
    case 'new-plan-checked':
      return ['plan again from its true state, check the plan and take it into use: the piece goes there with it'];
    case 'no-heat-needed':
      return [
        ...heatFirst,
        ...jointsNotSound(tx, row),
        ...withReason(sent, 'say how the damage was put right, or that it stays'),
      ];
    case 'metal-in-scrap':
      return [...heatFirst, ...metalBack(sent), ...remakeSaid(sent)];
    case 'metal-in-scrap-or-called-off':
      return mayGoWithoutMetal(tx, row) ? withReason(sent, 'say why') : metalBack(sent);
    case 'reason-given':
      return [...heatFirst, ...withReason(sent, 'say why')];
    case 'fault-seen':
      return withReason(sent, 'say which fault was seen');
    case 'was-there-before':
      return row.stateBeforeAside === sent.to ? [] : [`it was set aside as ${row.stateBeforeAside}, and goes back only to that`];
    default:
      return [];
  }
}

/** Weights against the computed one: far off they are asked about, since it may be the wrong piece or the wrong unit. */
export function weightErrors(tx: Db, { row, sent }: PieceMoveAsked): FieldError[] {
  const computed = computedG(tx, row.id);
  const { weighedG } = sent;
  const { guard } = findMove('piece', row.state, sent.to) ?? {};
  if (guard === 'metal-issued') return issuedErrors(sent.metalIssuedG, computed);
  if (weighedG === undefined || computed === null) return [];
  if (Math.abs(weighedG - computed) <= WEIGHT_OFF_FRACTION * computed) return [];
  return [
    {
      pointer: '/weighedG',
      detail: `${weighedG} g weighed against ${computed.toFixed(2)} g computed: wrong piece or wrong unit?`,
      given: weighedG,
      unit: 'g',
      confirmable: true,
    },
  ];
}

/** Metal issued is what the piece weighs, with offcuts and filings; far from that it may be the wrong unit. */
function issuedErrors(issuedG: number | undefined, computed: number | null): FieldError[] {
  if (issuedG === undefined || computed === null) return [];
  if (issuedG >= computed && issuedG <= ISSUED_MOST_FACTOR * computed) return [];
  return [
    {
      pointer: '/metalIssuedG',
      detail: `${issuedG} g issued for a piece of ${computed.toFixed(2)} g by its design: is the unit right?`,
      given: issuedG,
      unit: 'g',
      confirmable: true,
    },
  ];
}

/** Nobody goes on with what was called off by then; what was done before and is told later, was done. */
export function workCalledOff(tx: Db, { commissionId }: PieceRow, { occurredAt }: { occurredAt: string }): string[] {
  const { number, state, stateSince } = findCommission(tx, commissionId)!;
  const isOff = (state === 'called_off' || state === 'turned_down') && Date.parse(stateSince) <= Date.parse(occurredAt);
  if (!isOff) return [];
  return [state === 'called_off' ? `${number} was called off` : `${number} was turned down`];
}

function isRepair(tx: Db, { commissionId }: PieceRow): boolean {
  return findCommission(tx, commissionId)!.kind === 'repair';
}

function jointsNotSound(tx: Db, { id }: PieceRow): string[] {
  return jointsOf(tx, id)
    .filter(({ state }) => state !== 'sound')
    .map(({ jointId, state }) => `joint ${jointId} is ${state}`);
}

function unmadeJoints(tx: Db, { id }: PieceRow): string[] {
  return jointsOf(tx, id)
    .filter(({ state }) => state !== 'sound' && state !== 'doubtful')
    .map(({ jointId, state }) => `joint ${jointId} is ${state}`);
}

function doubtfulJoints(tx: Db, { id }: PieceRow): string[] {
  return jointsOf(tx, id)
    .filter(({ state }) => state === 'doubtful')
    .map(({ jointId }) => `joint ${jointId} is doubtful: look at it`);
}

function heatsLeft(tx: Db, { id }: PieceRow): string[] {
  const plan = findPlanInUse(tx, id);
  if (!plan) return ['it has no plan in use'];
  return heatsOfPlan(tx, plan.id)
    .filter(({ state }) => state !== 'cleared' && state !== 'skipped')
    .map(({ number, state }) => `H${number} is ${state.replaceAll('_', ' ')}`);
}

function notLookedOver(seen: readonly string[] = []): string[] {
  const left = LOOK_OVER.filter((item) => !seen.includes(item));
  return left.length === 0 ? [] : [`look over ${left.join(', ')} (lookedOver)`];
}

/** Where two pairs of hands work here, the maker's own eyes are not enough. */
function sameEyes(tx: Db, { actor, row }: PieceMoveAsked): string[] {
  const hands = rolesOfActive(tx).filter((roles) => effectiveRoles(roles).has('bench')).length;
  const makers = new Set([row.builtBy, ...heatsOf(tx, row.id).flatMap(({ primedBy, litBy }) => [primedBy, litBy])]);
  return hands > 1 && makers.has(actor.personId) ? ['you have worked on it: let another hand look it over'] : [];
}

function withReason({ reason }: { reason?: string | undefined }, says: string): string[] {
  return reason === undefined ? [`${says} (reason)`] : [];
}

function metalBack({ metalReturnedG }: { metalReturnedG?: number | undefined }): string[] {
  return metalReturnedG === undefined ? ['weigh its metal into scrap (metalReturnedG)'] : [];
}

function remakeSaid({ remake, reason }: { remake?: boolean | undefined; reason?: string | undefined }): string[] {
  if (remake === undefined) return ['say whether it is made again (remake)'];
  return remake || reason !== undefined ? [] : ['say why it is not made again (reason)'];
}

function mayGoWithoutMetal(tx: Db, { commissionId, metalIssuedTenthMg }: PieceRow): boolean {
  return metalIssuedTenthMg === null || findCommission(tx, commissionId)!.state === 'called_off';
}

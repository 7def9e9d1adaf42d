import { holdToTimes } from '../../../shared/thermal/calibration/observation.ts';
import type { Db } from '../../platform/db/client.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { dipInBath } from './dip-in-bath.ts';
import { clearHeat, doubtSoftened, spoilHeat } from './end-heat.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';
import { unprime, writeHeat } from './heat-state.ts';
import type { HeatRow } from './heats.store.ts';
import { findJoint } from './joints.store.ts';
import { holdToFieldsOfMove, holdToMissing } from './move-fields.ts';
import { lightHeat, nameOf, primeHeat } from './prime-heat.ts';
import { isMade } from './true-state.ts';
import { sayWhereItWent } from './where-it-went.ts';

const EXTRAS = [
  'lotId',
  'jointFitted',
  'fluxOn',
  'flux',
  'unknownSolder',
  'benchId',
  'protectionsPlaced',
  'cautionsRead',
  'nothingFlowed',
  'seen',
  'observed',
  'blackHeat',
  'ironOff',
  'driedThrough',
  'ventOpen',
  'stoneIn',
  'bathId',
  'bathC',
  'outcome',
  'jointsSound',
  'earlierJointsLookedAt',
  'usedG',
  'flowedJoints',
  'incident',
];
const SPOILT = ['outcome', 'usedG', 'flowedJoints', 'incident'];
const TAKEN: Readonly<Record<string, readonly string[]>> = {
  'ready-to-light': ['lotId', 'jointFitted', 'fluxOn', 'flux', 'unknownSolder', 'protectionsPlaced', 'ventOpen', 'cautionsRead'],
  'one-alight-tutor-yes': ['benchId'],
  'nothing-flowed': ['nothingFlowed'],
  'flame-off': ['seen', 'observed'],
  'black-heat-iron-off': ['blackHeat', 'ironOff', 'ventOpen', 'stoneIn', 'bathId', 'bathC', 'observed'],
  'no-pickle-needed': ['observed'],
  'rinsed-dried': ['driedThrough'],
  'flowed-and-sound': ['outcome', 'jointsSound', 'earlierJointsLookedAt', 'usedG'],
  'other-outcome': SPOILT,
  'something-went-wrong': SPOILT,
};

/** Moves a heat one step, if its life cycle, the person's roles and the guard of the step allow it, with all that follows. */
export function moveHeat(tx: Db, asked: HeatMoveAsked): HeatRow {
  const { actor, by, heat, sent } = asked;
  const { row } = heat;
  const move = sayWhereItWent(tx, heat, () => holdToLifecycle('heat', actor, { state: row.state, sent, now: by.at }));
  const { guard = '' } = move;
  holdToFieldsOfMove(sent, EXTRAS, TAKEN[guard] ?? []);
  const missing = (says: string[]): void => holdToMissing(nameOf(heat), sent.to, says);
  switch (guard) {
    case 'ready-to-light':
      return primeHeat(tx, asked);
    case 'something-missing':
      return unprime(tx, by, row, 'laid_out');
    case 'one-alight-tutor-yes':
      return lightHeat(tx, asked);
    case 'nothing-flowed':
      missing(sent.nothingFlowed ? [] : ['say that nothing flowed (nothingFlowed)']);
      return writeHeat(tx, by, row, { state: 'primed', alightAt: null, litBy: null, benchId: null });
    case 'flame-off':
      missing(sent.seen === undefined ? ['say in a word what was seen (seen)'] : []);
      doubtSoftened(tx, asked);
      return writeHeat(tx, by, row, { state: 'cooling', seen: sent.seen!, endedAt: sent.occurredAt, ...observed(asked) });
    case 'black-heat-iron-off':
      missing(pickleMissing(asked));
      dipInBath(tx, asked);
      return writeHeat(tx, by, row, { state: 'in_pickle', ...observed(asked) });
    case 'rinsed-dried':
      missing(wetInside(asked));
      return writeHeat(tx, by, row, { state: 'looking' });
    case 'no-pickle-needed':
      return writeHeat(tx, by, row, { state: 'looking', ...observed(asked) });
    case 'flowed-and-sound':
      return clearHeat(tx, asked);
    case 'other-outcome':
    case 'something-went-wrong':
      return spoilHeat(tx, asked);
    case 'left-out-of-plan':
      missing(stillNeeded(tx, asked));
      return unprime(tx, by, row, 'skipped');
    default:
      missing(['its plan does not know what happened since: plan again, and the new heats take its place']);
      return row;
  }
}

/** Times are noted as they are seen: those up to flow with the flame off, the end of the glow when the piece is black. */
function observed({ heat, sent }: HeatMoveAsked): Pick<HeatRow, 'observed'> | undefined {
  if (!sent.observed) return undefined;
  const times = { ...heat.row.observed, ...sent.observed };
  holdToTimes(times, nameOf(heat));
  return { observed: times };
}

function pickleMissing({ heat: { partsInFire }, sent }: HeatMoveAsked): string[] {
  const missing: string[] = [];
  if (!sent.blackHeat) missing.push('wait for black heat: red-hot work is neither quenched nor dropped into pickle (blackHeat)');
  if (!sent.ironOff) missing.push('take the iron off (ironOff)');
  if (partsInFire.some(({ hollow }) => hollow) && !sent.ventOpen) missing.push('see that the vent is open (ventOpen)');
  if (partsInFire.some(({ maxC }) => maxC !== undefined) && sent.stoneIn !== false)
    missing.push('say that no stone, wood or enamel is in it (stoneIn: false)');
  return missing;
}

/** Water left in a hollow form turns to steam in the next heat. */
function wetInside({ heat: { partsInFire }, sent }: HeatMoveAsked): string[] {
  return partsInFire.some(({ hollow }) => hollow) && !sent.driedThrough
    ? ['dry the hollow form right through (driedThrough): water in it turns to steam and bursts it']
    : [];
}

/** A heat may be left out when its plan is no longer followed, or when there is nothing left for it to make. */
function stillNeeded(tx: Db, { heat: { row, plan } }: HeatMoveAsked): string[] {
  if (plan.state !== 'in_use') return [];
  const open = row.joints.filter((id) => !isMade(findJoint(tx, row.pieceId, id)!));
  return open.length === 0 ? [] : [`plan ${plan.number} makes ${open.join(', ')} in it: plan again without it`];
}

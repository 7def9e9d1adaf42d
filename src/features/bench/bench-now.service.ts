import { DEFERRAL } from '../../../shared/cautions/caution-table.ts';
import { heatColour } from '../../../shared/materials/heat-colour.ts';
import { marginsInWords } from '../../../shared/thermal/margins-in-words.ts';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import type { BenchTimeService } from '../bench-time/index.ts';
import { fireFacts, getPiece, holdToKnownRecord, knowsRecord, type FireFacts, type PieceFeature } from '../pieces/index.ts';
import { toG, toTenthMg } from '../stock/index.ts';
import type { BenchNow, HeatNow } from './bench-now.schema.ts';
import * as store from './bench-now.store.ts';
import { flameSays, fluxSays, heatSays, nextStepOf, protectionSays } from './heat-words.ts';

export type BenchNowService = ReturnType<typeof createBenchNowService>;

interface Needs {
  heats: PieceFeature['heats'];
  benchTimes: BenchTimeService;
}

const COLOUR_SOURCE = 'colours of glowing steel: W. A. J. Chapman, Workshop Technology, part 1 (1972); judge them in dim light';

export function createBenchNowService({ db, clock }: Platform, { heats, benchTimes }: Needs) {
  return {
    /** What this person does next, and all that has to be known for it, also when the network is gone. */
    now(actor: Actor, asked: string | undefined): BenchNow {
      if (asked !== undefined) holdToKnownRecord(db, actor, { thing: 'heat', id: asked });
      const choices = store.nextHeats(db, { practiceOnly: !worksHere(actor) });
      const heatId = asked ?? nextOf(db, actor, choices);
      return {
        asOf: clock.now().toISOString(),
        ...benchTimes.current(actor),
        heat: heatId === undefined ? null : describe(db, actor, heats.get(actor, heatId)),
        choices: choices.map(({ heatNumber, state, ...rest }) => ({
          ...rest,
          number: `${rest.pieceNumber} H${heatNumber}`,
          state: state as HeatNow['state'],
        })),
        deferral: DEFERRAL,
      };
    },
  };
}

/** The heat in hand; else that of the running timer, or of its piece; else the only one there is. */
function nextOf(db: Db, actor: Actor, choices: readonly { heatId: string; pieceId: string }[]): string | undefined {
  const { personId } = actor;
  const inHand = store.heatInHand(db, personId);
  if (inHand !== undefined && knowsRecord(db, actor, { thing: 'heat', id: inHand })) return inHand;
  const timer = store.timerTarget(db, personId);
  const ofTimer = choices.find(({ heatId, pieceId }) => heatId === timer?.heatId || pieceId === timer?.pieceId);
  return ofTimer?.heatId ?? (choices.length === 1 ? choices[0]!.heatId : undefined);
}

function describe(db: Db, actor: Actor, heat: ReturnType<PieceFeature['heats']['get']>): HeatNow {
  const { id, number, title, state } = getPiece(db, heat.pieceId);
  const facts = fireFacts(db, actor, heat.id);
  const peakC = heat.expected?.flowC ?? null;
  return {
    ...heat,
    piece: { id, number, title, state },
    says: heatSays(heat),
    nextStep: nextStepOf(heat),
    peak:
      peakC === null
        ? null
        : {
            peakC,
            peakF: Math.round(convertUnit({ value: peakC, from: 'Cel', to: '[degF]' })),
            colour: heatColour(peakC),
            colourSource: COLOUR_SOURCE,
          },
    lots: lotsFor(db, heat),
    flux: { ...heat.flux, says: fluxSays(heat.flux) },
    flameSays: flameSays(heat.flame),
    toPlace: heat.protections.map(protectionSays),
    margins: (heat.expected?.earlierJoints ?? []).map(({ joint, verdict, says, ...margins }) => ({
      joint,
      verdict,
      says,
      ...marginsInWords(margins),
    })),
    danger: { ...facts, blocked: blockedBy(facts) },
  };
}

function lotsFor(db: Db, { product, plannedG }: { product: HeatNow['product']; plannedG: number }): HeatNow['lots'] {
  if (product === null) return [];
  return store.usableLots(db, product.id).map(({ onHandTenthMg, ...lot }) => ({
    ...lot,
    onHandG: toG(onHandTenthMg),
    isEnough: onHandTenthMg >= toTenthMg(plannedG),
  }));
}

function blockedBy({ cadmium, limits, tutorsYes }: FireFacts): string[] {
  return [
    ...cadmium.map(
      ({ joint, standing }) =>
        `Do not heat: cadmium ${standing === 'yes' ? 'is in' : 'may be in'} joint ${joint}. Only a supplier's sheet or a laboratory analysis can clear it`,
    ),
    ...limits
      .filter(({ maxC, peakC }) => peakC !== null && peakC > maxC)
      .map(({ part, maxC }) => `${part} is predicted to pass its limit of ${maxC} °C: take it out, or plan again`),
    ...(tutorsYes ? [] : ['A student lights no heat without a tutor’s yes to it']),
  ];
}

import type { Services } from '../src/services.ts';
import type { Actor } from '../src/platform/http/actor.ts';
import { sent } from './sent.ts';
import type { Studio } from './studio.ts';

/** Minutes at the bench, noted by hand and agreed. */
export function benchWork(
  { services, people, clock }: Studio,
  pieceId: string | null,
  operation: string,
  minutes: number,
  heatId?: string,
): void {
  const target = pieceId === null ? { general: true as const } : { pieceId, ...(heatId === undefined ? {} : { heatId }) };
  const time = services.benchTimes.add(people.bench, { ...target, operation, minutesByHand: minutes, note: null });
  services.benchTimes.move(people.bench, time.id, sent(clock, 'stopped', 'agreed'));
}

type Plans = Services['bench']['plans'];

/** A plan version of a piece, by hand or found. */
export async function planPiece(
  { bench: { plans } }: Services,
  actor: Actor,
  pieceId: string,
  asked: Parameters<Plans['draft']>[2],
): Promise<ReturnType<Plans['keep']>> {
  return plans.keep(actor, await plans.draft(actor, pieceId, asked));
}

/** A heat that goes well, from laid out to cleared; the time to flow noted where it is told against the predicted one. */
export function workHeat(studio: Studio, heatId: string, worked: Worked = {}): void {
  toLooking(studio, heatId, worked);
  const { services, people, clock } = studio;
  services.bench.heats.move(
    worked.hand ?? people.bench,
    heatId,
    sent(clock, 'looking', 'cleared', { outcome: 'flowed' as const, jointsSound: true, earlierJointsLookedAt: true }),
  );
}

/** Fits the studio's torch, in the hands at the bench, to the times that were noted of the heats of a piece. */
export async function calibrateTorch({ services, people, torchId }: Studio, pieceId: string): Promise<void> {
  const { items } = services.bench.heats.list(people.bench, { pieceId, state: 'cleared', limit: 8 });
  const heatIds = items.filter(({ observed }) => observed !== null).map(({ id }) => id);
  const asked = { torchId, heatIds, observations: [], strips: [] };
  services.calibrations.keep(people.bench, await services.calibrations.fit(people.bench, asked));
}

/** A heat that goes wrong: an earlier joint reflows, or nothing flows. The piece is hurt, and what happened is noted. */
export function spoilHeat(studio: Studio, heatId: string, kind: 'reflow' | 'no_flow'): void {
  toLooking(studio, heatId);
  const { services, people, clock } = studio;
  const { expected, pieceId, joints } = services.bench.heats.get(people.bench, heatId);
  const wrong = kind === 'reflow' ? reflowOf(expected!.earlierJoints[0]!.joint) : noFlowOf(joints[0]!);
  services.bench.heats.move(people.bench, heatId, sent(clock, 'looking', 'spoilt', wrong));
  const [incident] = services.bench.incidents.list(people.bench, { pieceId, limit: 1 }).items;
  services.bench.incidents.change(people.bench, incident!.id, 1, {
    likelyCause: kind === 'reflow' ? 'flame_on_solder' : 'dirty',
    minutesLost: kind === 'reflow' ? 25 : 10,
  });
  services.bench.incidents.move(people.bench, incident!.id, sent(clock, 'seen', 'explained'));
}

function reflowOf(jointId: string) {
  const note = 'the flame stayed too long on one side';
  return {
    outcome: 'earlier_joint_moved' as const,
    incident: { kind: 'reflow' as const, jointId, movedJoints: [jointId], note },
  };
}

function noFlowOf(jointId: string) {
  return { outcome: 'no_flow' as const, incident: { kind: 'no_flow' as const, jointId, note: 'grease in the joint' } };
}

interface Worked {
  timedAt?: number | undefined;
  /** Whose, where it is not the bench hand's. */
  hand?: Actor;
}

function toLooking(
  { services, people, clock, lots, bathId }: Studio,
  heatId: string,
  { timedAt, hand = people.bench }: Worked = {},
): void {
  const { heats } = services.bench;
  const { product, cautions, expected } = heats.get(hand, heatId);
  heats.move(
    hand,
    heatId,
    sent(clock, 'laid_out', 'primed', {
      lotId: lots[product!.code]!,
      jointFitted: true,
      fluxOn: true,
      protectionsPlaced: true,
      cautionsRead: cautions.filter(({ due }) => due).map(({ id }) => id),
    }),
  );
  const flowS = expected?.timeToFlowS ?? null;
  const observed = timedAt === undefined || flowS === null ? {} : { observed: { secondsToFlow: Math.round(flowS * timedAt) } };
  clock.advance(4);
  heats.move(hand, heatId, sent(clock, 'primed', 'alight'));
  clock.advance(1);
  heats.move(hand, heatId, sent(clock, 'alight', 'cooling', { seen: 'ran round evenly', ...observed }));
  clock.advance(3);
  heats.move(hand, heatId, sent(clock, 'cooling', 'in_pickle', { blackHeat: true, ironOff: true, bathId }));
  clock.advance(10);
  heats.move(hand, heatId, sent(clock, 'in_pickle', 'looking'));
}

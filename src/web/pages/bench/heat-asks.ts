import type { HeatNow } from '../../offline/heat-as-done.ts';
import type { StepGiven } from '../../offline/step-queue.ts';
import type { Words } from '../../words/words.ts';
import { cautionWords, fluxWords, lotWords, protectionWords } from './heat-in-words.ts';

/** One thing that is seen to and said before a step. */
export interface Ask {
  id: string;
  words: string;
}

interface Said {
  ticked: ReadonlySet<string>;
  lotId: string | undefined;
  /** Which tests were made of solder nobody knows. */
  tests: string;
  /** Where it is pickled; nothing is counted where the book has no bath. */
  bathId?: string | undefined;
}

/** What has to be said before the next step of a heat, in the order it is done at the bench. */
export function asksOf(heat: HeatNow, lotId: string | undefined, words: Words): Ask[] {
  const { say } = words;
  const vents = heat.danger.vents.map(({ part }) => part).join(', ');
  const vent = vents === '' ? [] : [{ id: 'ventOpen', words: say('bench.ask.ventOpen', { parts: vents }) }];
  switch (heat.state) {
    case 'laid_out': {
      const lot = heat.lots.find(({ id }) => id === lotId);
      return [
        { id: 'jointFitted', words: say('bench.ask.jointFitted') },
        { id: 'fluxOn', words: say('bench.ask.fluxOn', { flux: fluxWords(heat, words) }) },
        ...(lot ? [{ id: 'lot', words: say('bench.ask.lot', { lot: lotWords(lot, words) }) }] : []),
        ...heat.protections.map((one, index) => ({
          id: `protection-${index}`,
          words: say('bench.ask.protection', { what: protectionWords(one, words) }),
        })),
        ...vent,
        ...(heat.danger.unknownSolder.length > 0
          ? [{ id: 'clientsYes', words: say('bench.ask.clientsYes', { joints: heat.danger.unknownSolder.join(', ') }) }]
          : []),
        ...heat.cautions
          // Taken out of readiness without a network, the book's "due" is of the time before.
          .filter(({ due, tick }) => due || tick === 'each_time')
          .map((caution) => ({
            id: `caution-${caution.id}`,
            words: say('bench.ask.caution', { words: cautionWords(caution, words) }),
          })),
      ];
    }
    case 'cooling':
      return [
        { id: 'blackHeat', words: say('bench.ask.blackHeat') },
        { id: 'ironOff', words: say('bench.ask.ironOff') },
        ...vent,
        ...(heat.danger.limits.length > 0 ? [{ id: 'stoneOut', words: say('bench.ask.stoneOut') }] : []),
      ];
    case 'in_pickle':
      return vents === '' ? [] : [{ id: 'driedThrough', words: say('bench.ask.driedThrough', { parts: vents }) }];
    case 'looking': {
      const earlier = (heat.expected?.earlierJoints ?? []).map(({ joint }) => joint);
      return [
        { id: 'jointsSound', words: say('bench.ask.jointsSound', { joints: heat.joints.join(', ') }) },
        ...(earlier.length > 0
          ? [{ id: 'earlierLookedAt', words: say('bench.ask.earlierLookedAt', { joints: earlier.join(', ') }) }]
          : []),
      ];
    }
    case 'primed':
    case 'alight':
    case 'cleared':
    case 'spoilt':
    case 'skipped':
    case 'on_hold':
      return [];
  }
}

type MainStep = 'primed' | 'alight' | 'cooling' | 'in_pickle' | 'looking' | 'cleared';

const NEXT: Readonly<Partial<Record<HeatNow['state'], MainStep>>> = {
  laid_out: 'primed',
  primed: 'alight',
  alight: 'cooling',
  cooling: 'in_pickle',
  in_pickle: 'looking',
  looking: 'cleared',
};

/** Where the heat goes next when all is well; undefined when it has ended or waits for a plan. */
export function nextOf({ state }: HeatNow): MainStep | undefined {
  return NEXT[state];
}

export function moveHeat(heat: HeatNow, to: string, more: Record<string, unknown> = {}): StepGiven {
  return { do: 'move_heat', heatId: heat.id, from: heat.state, to, ...more };
}

/** The next step with all that was said for it. What was seen while it was alight is said with it. */
export function mainStep(heat: HeatNow, to: MainStep, { ticked, lotId, tests, bathId }: Said, seen: string): StepGiven {
  const has = (id: string) => ticked.has(id);
  switch (to) {
    case 'primed':
      return moveHeat(heat, to, {
        ...(lotId !== undefined && { lotId }),
        jointFitted: has('jointFitted'),
        fluxOn: has('fluxOn'),
        ...(heat.protections.length > 0 && {
          protectionsPlaced: heat.protections.every((_, index) => has(`protection-${index}`)),
        }),
        ...(heat.danger.vents.length > 0 && { ventOpen: has('ventOpen') }),
        ...(heat.danger.unknownSolder.length > 0 && { unknownSolder: { tests, clientsYes: has('clientsYes') } }),
        cautionsRead: heat.cautions.filter(({ id }) => has(`caution-${id}`)).map(({ id }) => id),
      });
    case 'alight':
      return moveHeat(heat, to);
    case 'cooling':
      return moveHeat(heat, to, { seen });
    case 'in_pickle':
      return moveHeat(heat, to, {
        blackHeat: has('blackHeat'),
        ironOff: has('ironOff'),
        ...(bathId !== undefined && { bathId }),
        ...(heat.danger.vents.length > 0 && { ventOpen: has('ventOpen') }),
        ...(heat.danger.limits.length > 0 && { stoneIn: !has('stoneOut') }),
      });
    case 'looking':
      return moveHeat(heat, to, heat.danger.vents.length > 0 ? { driedThrough: has('driedThrough') } : {});
    case 'cleared':
      return moveHeat(heat, to, {
        ...(heat.purpose === 'solder' && { outcome: 'flowed' }),
        jointsSound: has('jointsSound'),
        ...(has('earlierLookedAt') && { earlierJointsLookedAt: true }),
      });
  }
}

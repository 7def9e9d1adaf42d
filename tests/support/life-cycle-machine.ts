import machine from '../reference/states.json' with { type: 'json' };
import { LIFECYCLES, type Thing } from '../../shared/lifecycles/lifecycles.ts';

/** One line of the machine form: every move from one state to another that it names, and for whom. */
export interface MachineMove {
  from: string;
  to: string;
  who: Set<string>;
  onlyIf: string[];
  effects: string[];
}

export interface Machine {
  thing: Thing;
  states: string[];
  moves: MachineMove[];
}

/**
 * The machine form as single moves, two lines of the same move as one.
 *
 * Two of its lines are words, not moves, and are told here: a return after handing over makes a new commission, and a piece set
 * aside goes back only to the state it came from.
 */
export const MACHINES: Machine[] = machine.things.map(({ thing, states, moves }) => {
  const single = new Map<string, MachineMove>();
  const put = (from: string, to: string, who: readonly string[], onlyIf: string, effect: string): void => {
    const move = single.get(`${from} ${to}`) ?? { from, to, who: new Set(), onlyIf: [], effects: [] };
    for (const one of who) move.who.add(one === 'client by link' ? 'client' : one);
    if (onlyIf !== '') move.onlyIf.push(onlyIf);
    if (effect !== '') move.effects.push(effect);
    single.set(`${from} ${to}`, move);
  };
  for (const { from, to, who, only_if: onlyIf, then: effect } of moves as RawMove[]) {
    if (to === '(new commission)') continue;
    for (const one of from) put(one, to, who, onlyIf, effect);
    if (to === 'set_aside') for (const one of from) put('set_aside', one, who, 'set aside from that state', '');
  }
  return { thing: thing as Thing, states, moves: [...single.values()] };
});

interface RawMove {
  from: string[];
  to: string;
  who: string[];
  only_if: string;
  then: string;
}

/** What the machine form speaks of; a search for a plan is the program's own. */
export const THINGS = (Object.keys(LIFECYCLES) as Thing[]).filter((thing) => thing !== 'plan_search');

/** Who asks, as the machine form speaks of them: with the roles that their roles include. */
export interface Asker {
  name: string;
  roles: readonly string[];
  tutor: boolean;
  /** The record is their own. */
  own: boolean;
}

/** Whether the machine form lets somebody who is signed in make a move. */
export function machineLets({ who }: MachineMove, { roles, tutor, own }: Asker): boolean {
  return [...who].some(
    (one) => one === 'anyone' || (one === 'person' && own) || (one === 'tutor' && tutor) || roles.includes(one),
  );
}

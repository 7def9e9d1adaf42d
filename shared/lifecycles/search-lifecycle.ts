import { lifecycle } from './lifecycle.ts';

/** A search for a plan: a thing of the program rather than of the bench, so it has no piece of paper that says how it goes. */
export const planSearch = lifecycle(
  ['waiting', 'running', 'done', 'stopped', 'interrupted', 'failed'],
  [
    { from: ['waiting'], to: 'running', who: ['system'], guard: 'its-turn', onlyIf: 'its turn has come' },
    { from: ['running'], to: 'done', who: ['system'], guard: 'has-an-answer', onlyIf: 'it has an answer' },
    {
      from: ['waiting', 'running'],
      to: 'stopped',
      who: ['person', 'owner'],
      effect: 'one that runs answers with the best it has found by then',
    },
    {
      from: ['waiting', 'running'],
      to: 'interrupted',
      who: ['system'],
      guard: 'server-ended',
      onlyIf: 'the server was stopped before it had an answer',
    },
    {
      from: ['waiting', 'running'],
      to: 'failed',
      who: ['system'],
      guard: 'cannot-be-computed',
      onlyIf: 'the engine cannot compute what was asked',
    },
  ],
);

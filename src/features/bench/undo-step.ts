import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { takeBackTime } from '../bench-time/index.ts';
import { TAKEN_BACK, takeBackChange } from '../pieces/index.ts';
import * as store from './bench-steps.store.ts';

/** So long a step may be taken back. */
const UNDO_MS = 10 * 60_000;

/**
 * Takes a step back by a reversing move: what it changed is what it was before, as the next version, with lines of its own in the
 * journal. What it booked or opened (solder, an incident, a new time) stays, and such a step is not taken back.
 */
export function undoStep(
  tx: Db,
  by: WrittenBy,
  { personId, undoes, key, occurredAt }: { personId: string; undoes: string; key: string; occurredAt: string },
): { undone: string } {
  const step = store.findStep(tx, personId, undoes);
  if (!step) throw notFound('step', undoes);
  const refuse = (says: string): never => {
    throw new Problem('condition-not-met', `Cannot take step ${undoes} back: ${says}`, { missing: [says] });
  };
  if (step.answer.status !== 200) refuse('it was not done');
  if (step.undoneBy !== null) refuse('it was taken back already');
  if (Date.parse(occurredAt) - Date.parse(step.occurredAt) > UNDO_MS) refuse('it is more than ten minutes old');
  const lines = store.linesOf(tx, step);
  if (lines.some(({ what, before }) => before === null || !UNDONE.has(what)))
    refuse('it booked or opened something; mend that by a movement, or with the incident');
  for (const line of lines.toReversed()) {
    const inTheWay = line.what === 'bench_time' ? takeBackTime(tx, by, line) : takeBackChange(tx, by, line);
    if (inTheWay !== undefined) refuse(inTheWay);
  }
  store.markUndone(tx, step, key);
  return { undone: undoes };
}

const UNDONE: ReadonlySet<string> = new Set([...TAKEN_BACK, 'bench_time']);

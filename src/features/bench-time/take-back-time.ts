import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import * as store from './bench-time.store.ts';
import { writeChange } from './time-records.ts';

/**
 * Writes a time back to what it was before a change, as its next version.
 *
 * @returns what stands in the way, in words: the time was changed since, or another timer runs now
 */
export function takeBackTime(tx: Db, by: WrittenBy, { before, after }: { before: unknown; after: unknown }): string | undefined {
  const [old, left] = [before as store.BenchTimeRow, after as store.BenchTimeRow];
  const now = store.findBenchTime(tx, left.id);
  if (now?.version !== left.version) return 'the time';
  if (old.state === 'running' && store.findRunning(tx, old.personId)) return 'the timer: another one runs now, and with it what';
  writeChange(tx, by, now, { state: old.state, stoppedAt: old.stoppedAt });
  return undefined;
}

import { writtenByServer } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import * as store from './bench-time.store.ts';
import { DOUBT_AFTER_MS } from './spans.ts';
import { writeChange } from './time-records.ts';

/** Timers that have run for over four hours were forgotten: they are in doubt until their person says when they stopped. */
export function runDueBenchTimes({ db, clock }: Platform): void {
  db.transaction((tx) => {
    const now = clock.now();
    const before = new Date(now.getTime() - DOUBT_AFTER_MS).toISOString();
    for (const row of store.runningSince(tx, before)) writeChange(tx, writtenByServer(now), row, { state: 'in_doubt' });
  });
}

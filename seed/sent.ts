import type { SeedClock } from './calendar.ts';

let deviceSeq = 0;

/** A move as a device of the studio sends it. */
export function sent<To extends string, Extra extends object = object>(clock: SeedClock, from: string, to: To, extra?: Extra) {
  deviceSeq += 1;
  return { from, to, occurredAt: clock.now().toISOString(), deviceId: 'tablet', deviceSeq, ...(extra as Extra) };
}

import type { Clock } from './clock.ts';
import type { Db } from './db/client.ts';

/** What every service is made from. */
export interface Platform {
  db: Db;
  clock: Clock;
}

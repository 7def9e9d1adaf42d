import type { Actor } from '../../platform/http/actor.ts';
import type { Period } from './reports.schema.ts';

/** What a report is made for: when, of which days, for whom. */
export interface Asked {
  now: Date;
  period: Period;
  actor: Actor;
}

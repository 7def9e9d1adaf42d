/** What a question of what if is answered. */

import type { Plan } from '../design/plan.ts';
import type { ChangedHeat } from './changed-heats.ts';
import type { FoundProblem } from './heat-check.ts';
import type { PlanCheck } from './plan-check-answer.ts';
import type { Fault } from './plan-to-check.ts';

export interface BeforeAfter<T> {
  before: T;
  after: T;
}

/** What edits of a plan change, and nothing else. */
export interface WhatIf {
  /** With the edits made, in the words of the design. */
  plan: Plan;
  verdict: BeforeAfter<PlanCheck['verdict']>;
  /** Flame to flow over all heats; null where one does not flow. */
  flameS: BeforeAfter<number | null>;
  /** Hands-on minutes of the whole plan, as it is priced. */
  handsOnMinutes: BeforeAfter<number>;
  /** Heats in which something is otherwise, in the order of the edited plan; those that are gone last. */
  heats: ChangedHeat[];
  /** Problems by what happens to what, wherever the heat now stands; a gone one has the number of its heat before the edits. */
  problems: { gone: FoundProblem[]; new: FoundProblem[] };
  says: string;
}

export type WhatIfOutcome = { outcome: 'faults'; faults: Fault[] } | ({ outcome: 'checked' } & WhatIf);

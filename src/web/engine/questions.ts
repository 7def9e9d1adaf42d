import type { PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheckOutcome, PlanEdit } from '../../../shared/sequencing/plan-check-answer.ts';
import type { PlanSearchRequest } from '../../../shared/sequencing/plan-search-request.ts';
import type { PlanSearchOutcome, PlanSearchStep } from '../../../shared/sequencing/search-plan.ts';
import type { WhatIfOutcome } from '../../../shared/sequencing/what-if-answer.ts';

/** What the page asks its engine, and what each question is answered with. */
export interface Questions {
  /** The heats alone, without fixes or what protections cost: quick enough to follow a hand that drags. */
  heats: { request: PlanCheckRequest; reply: PlanCheckOutcome };
  check: { request: PlanCheckRequest; reply: PlanCheckOutcome };
  what_if: { request: PlanCheckRequest & { edits: readonly PlanEdit[] }; reply: WhatIfOutcome };
  search: { request: PlanSearchRequest; reply: PlanSearchOutcome };
}

export type Ask = keyof Questions;

export type ToEngine =
  | { id: number; kind: 'ask'; ask: Ask; request: unknown }
  /** Answer with what there is by now. */
  | { id: number; kind: 'finish' }
  /** Nobody waits for it any more. */
  | { id: number; kind: 'drop' };

export type FromEngine =
  | { id: number; kind: 'progress'; step: PlanSearchStep }
  | { id: number; kind: 'answered'; reply: unknown }
  /** A size or number outside what the model covers, in words. */
  | { id: number; kind: 'outside_model'; detail: string }
  | { id: number; kind: 'failed'; detail: string };

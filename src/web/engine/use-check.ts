import { useLayoutEffect, useState } from 'preact/hooks';
import type { PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheckOutcome } from '../../../shared/sequencing/plan-check-answer.ts';
import { askEngine } from './engine.ts';

export interface Checked {
  /** What came last; it stays while a newer plan is computed. */
  outcome: PlanCheckOutcome | undefined;
  /** Of a plan that has been changed since, or without its fixes yet. */
  isBehind: boolean;
  /** Of another plan than the one that is asked about now. */
  isOld: boolean;
  error: Error | undefined;
}

/** What a plan does, computed in this browser: first the heats alone, at once, then with every fix that was tried. */
export function useCheck(request: PlanCheckRequest): Checked {
  const key = JSON.stringify(request);
  const [state, setState] = useState<Omit<Checked, 'isOld'> & { of?: string }>({
    outcome: undefined,
    isBehind: true,
    error: undefined,
  });
  // Before the drop is painted: the answer comes a frame sooner.
  useLayoutEffect(() => {
    let current = true;
    setState((before) => ({ ...before, isBehind: true }));
    const asked = [askEngine('heats', request), askEngine('check', request)];
    const take = (outcome: PlanCheckOutcome, isBehind: boolean) =>
      current && setState({ outcome, isBehind, error: undefined, of: key });
    const fail = (error: Error) =>
      current && error.name !== 'AbortError' && setState((before) => ({ ...before, isBehind: false, error, of: key }));
    asked[0]!.answer.then((outcome) => take(outcome, true), fail);
    asked[1]!.answer.then((outcome) => take(outcome, false), fail);
    return () => {
      current = false;
      for (const { drop } of asked) drop();
    };
  }, [key]);
  return { ...state, isOld: state.of !== key };
}

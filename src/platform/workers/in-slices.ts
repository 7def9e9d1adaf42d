import { setImmediate as nextTurn } from 'node:timers/promises';

/** How long work goes on before it lets others have their turn. */
const SLICE_MS = 20;

/**
 * The answer of work that is done in steps, a slice at a time, so that the thread answers others in between.
 *
 * @param onStep hears of every step; what it throws ends the work
 */
export async function inSlices<Step, Answer>(steps: Iterator<Step, Answer>, onStep?: (step: Step) => void): Promise<Answer> {
  let sliceBegun = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    onStep?.(step.value);
    if (performance.now() - sliceBegun < SLICE_MS) continue;
    await nextTurn();
    sliceBegun = performance.now();
  }
}

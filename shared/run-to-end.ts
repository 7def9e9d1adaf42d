/** The answer of work that is done in steps, for a caller with nothing to do in between. */
export function runToEnd<Answer>(steps: Iterator<unknown, Answer>): Answer {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

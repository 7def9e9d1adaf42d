import type { MessagePort } from 'node:worker_threads';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { inSlices } from './in-slices.ts';

/** What a thread is given: the work, and a line to the one who asked. */
export interface OnThread<Given> {
  given: Given;
  port: MessagePort;
}

/** How work is ended before its time: with the answer it has by then, or with none. */
export type EndsWith = 'what_it_has' | 'nothing';

/** What a thread answers. Errors lose their kind on the way between threads, so what the engine refuses is told. */
export type FromThread<Answer> =
  | { ended: 'answered'; answer: Answer }
  | { ended: 'outside_model'; detail: string; quantity: string; given: unknown }
  | { ended: 'with_nothing' };

class EndedWithNothing extends Error {}

/**
 * Does work in steps on a thread, and hears when it is to end.
 *
 * @param begin is told how to ask whether it is to answer with what it has
 */
export async function answerOnThread<Step, Answer>(
  { port }: Pick<OnThread<unknown>, 'port'>,
  begin: (isStopped: () => boolean) => Iterator<Step, Answer>,
  onStep?: (step: Step) => void,
): Promise<FromThread<Answer>> {
  let endsWith: EndsWith | null = null;
  port.on('message', (how: EndsWith) => (endsWith = how));
  try {
    const answer = await inSlices(
      begin(() => endsWith === 'what_it_has'),
      (step) => {
        if (endsWith === 'nothing') throw new EndedWithNothing();
        onStep?.(step);
      },
    );
    return { ended: 'answered', answer };
  } catch (thrown) {
    if (thrown instanceof EndedWithNothing) return { ended: 'with_nothing' };
    if (!(thrown instanceof EngineInputError)) throw thrown;
    return { ended: 'outside_model', detail: thrown.message, quantity: thrown.quantity, given: thrown.given };
  } finally {
    port.close();
  }
}

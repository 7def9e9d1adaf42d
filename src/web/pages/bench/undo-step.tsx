import { UNDO_MS, type StepQueue } from '../../offline/step-queue.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';
import { stepWords } from './not-told.tsx';

/** What booked or opened something is not undone by a tap, but mended with what it opened. */
const FINAL: ReadonlySet<unknown> = new Set(['cleared', 'spoilt']);

/** Takes the last step on a heat back, while it is not older than ten minutes. */
export function UndoStep({ queue, heatId }: { queue: StepQueue; heatId: string }) {
  const words = useWords();
  const notes = queue.notes();
  const undone = new Set(notes.map(({ step }) => step['undoes']));
  const last = notes.findLast(
    ({ step, problem }) =>
      (step.do === 'move_heat' || step.do === 'see_in_heat') &&
      step['heatId'] === heatId &&
      problem === null &&
      !undone.has(step.key),
  );
  // A dip that a bath has counted stays counted.
  const isCounted = last?.step['bathId'] !== undefined;
  if (!last || isCounted || FINAL.has(last.step['to']) || Date.now() - Date.parse(last.step.occurredAt) > UNDO_MS) return null;
  return (
    <Button onClick={() => queue.note(last.of, { do: 'undo', undoes: last.step.key })}>
      {words.say('bench.undo', { step: stepWords(last, words) })}
    </Button>
  );
}

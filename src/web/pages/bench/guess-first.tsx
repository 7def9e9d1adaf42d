import { useState } from 'preact/hooks';
import type { ReplyOf } from '../../api/reply.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import type { Note, StepQueue } from '../../offline/step-queue.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';

const GUESSES = ['solid', 'softens', 'runs'] as const;
type Guess = (typeof GUESSES)[number];
type Told = ReplyOf<'/api/v1/plans/{id}/guesses', 'post'>;

/** A student says what each earlier joint will do, and only then is told what is predicted. */
export function GuessFirst({ heat, queue }: { heat: HeatNow; queue: StepQueue }) {
  const { say } = useWords();
  const [guesses, setGuesses] = useState<Readonly<Record<string, Guess>>>({});
  const isSaid = queue.notes().some((note) => isGuessOf(note, heat) && note.answeredAtMs === null);
  if (isSaid)
    return (
      <p class="card" role="status">
        {say('bench.guessKept')}
      </p>
    );
  return (
    <section class="card" aria-labelledby="bench-guess">
      <h2 id="bench-guess">{say('bench.guess')}</h2>
      <p>{say('bench.guessLead')}</p>
      {heat.guessFirst.map((joint) => (
        <fieldset key={joint}>
          <legend>{joint}</legend>
          <div class="bench-choices">
            {GUESSES.map((guess) => (
              <Button
                key={guess}
                aria-pressed={guesses[joint] === guess}
                onClick={() => setGuesses({ ...guesses, [joint]: guess })}
              >
                {guesses[joint] === guess ? '✓ ' : ''}
                {say(`bench.guess.${guess}`)}
              </Button>
            ))}
          </div>
        </fieldset>
      ))}
      <Button
        kind="main"
        disabled={heat.guessFirst.some((joint) => guesses[joint] === undefined)}
        onClick={() =>
          queue.note(heat.number, {
            do: 'guess',
            planId: heat.planId,
            heat: heat.position,
            guesses: heat.guessFirst.map((joint) => ({ joint, guess: guesses[joint]! })),
          })
        }
      >
        {say('bench.guessGo')}
      </Button>
    </section>
  );
}

function isGuessOf({ step }: Note, { planId, position }: HeatNow): boolean {
  return step.do === 'guess' && step['planId'] === planId && step['heat'] === position;
}

/** What was guessed of this heat beside what is predicted, when the book has told it. */
export function GuessAnswer({ heat, queue }: { heat: HeatNow; queue: StepQueue }) {
  const { say } = useWords();
  const answer = queue.notes().findLast((note) => isGuessOf(note, heat) && note.answer !== undefined)?.answer as Told | undefined;
  if (!answer) return null;
  return (
    <div class="notice" role="status">
      {answer.guesses.map(({ joint, guess, predicted, isRight }) => (
        <p key={joint}>
          {isRight
            ? say('bench.guessRight', { joint })
            : say('bench.guessWrong', {
                joint,
                guess: say(`bench.guess.${guess}`),
                predicted: say(`bench.guess.${predicted}`),
              })}
        </p>
      ))}
    </div>
  );
}

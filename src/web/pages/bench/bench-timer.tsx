import { useState } from 'preact/hooks';
import type { BenchNow, HeatNow } from '../../offline/heat-as-done.ts';
import type { StepQueue } from '../../offline/step-queue.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';

interface Props {
  now: BenchNow | undefined;
  heat: HeatNow | null;
  queue: StepQueue;
}

/** The timer that runs, as it is at the bench: started or stopped here counts before the book has heard of it. */
function runningHere({ now, queue }: Props): { id?: string; startedBy?: string; of: string | null; since: string } | undefined {
  const waiting = queue.notes().filter(({ answeredAtMs, problem }) => answeredAtMs === null && problem === null);
  const started = waiting.findLast(({ step }) => step.do === 'start_time');
  const stopped = waiting.map(({ step }) => step).filter((step) => step.do === 'move_bench_time');
  if (started && !stopped.some((step) => step['startedBy'] === started.step.key))
    return { startedBy: started.step.key, of: started.of, since: started.step.occurredAt };
  const running = now?.running;
  if (started || !running || stopped.some((step) => step['benchTimeId'] === running.id)) return undefined;
  return { id: running.id, of: running.pieceNumber, since: running.startedAt };
}

export function BenchTimer(props: Props) {
  const { now, heat, queue } = props;
  const { say, moment } = useWords();
  const { studio } = useSession();
  const running = runningHere(props);
  const since = running && moment(running.since, studio.timeZone);
  const isHere = running !== undefined && running.of === heat?.piece.number;
  const stop = ({ id, startedBy, of }: NonNullable<typeof running>) =>
    queue.note(of ?? '', {
      do: 'move_bench_time',
      ...(id !== undefined ? { benchTimeId: id } : { startedBy }),
      from: 'running',
      to: 'stopped',
    });
  return (
    <section class="bench-timer" aria-label={say('bench.timer')}>
      {running && (
        <>
          <span>
            {running.of === null
              ? say('bench.timerGeneral', { since: since! })
              : say('bench.timerOn', { piece: running.of, since: since! })}
          </span>
          <Button onClick={() => stop(running)}>{say('bench.timerStop')}</Button>
        </>
      )}
      {heat && !isHere && (
        <Button
          onClick={() =>
            queue.note(heat.piece.number, { do: 'start_time', heatId: heat.id, operation: say('bench.timerSoldering') })
          }
        >
          {say('bench.timerStart', { piece: heat.piece.number })}
        </Button>
      )}
      {now?.inDoubt.map((one) => (
        <Forgotten key={one.benchTime.id} forgotten={one} queue={queue} />
      ))}
    </section>
  );
}

function Forgotten({ forgotten, queue }: { forgotten: BenchNow['inDoubt'][number]; queue: StepQueue }) {
  const { say, moment } = useWords();
  const { studio } = useSession();
  const [when, setWhen] = useState('');
  const { benchTime, suggestedStoppedAt } = forgotten;
  const isSaid = queue.notes().some(({ step, problem }) => step['benchTimeId'] === benchTime.id && problem === null);
  if (isSaid) return null;
  const agree = (stoppedAt: string) =>
    queue.note(benchTime.pieceNumber ?? '', {
      do: 'move_bench_time',
      benchTimeId: benchTime.id,
      from: 'in_doubt',
      to: 'agreed',
      stoppedAt,
    });
  return (
    <div class="notice notice-caution">
      <p>
        {say('bench.forgotten', {
          what: benchTime.pieceNumber ?? say('bench.forgottenOther'),
          since: moment(benchTime.startedAt, studio.timeZone),
        })}
      </p>
      {suggestedStoppedAt !== null && (
        <Button onClick={() => agree(suggestedStoppedAt)}>
          {say('bench.forgottenAt', { at: moment(suggestedStoppedAt, studio.timeZone) })}
        </Button>
      )}
      <label class="field">
        <span>{say('bench.forgottenWhen')}</span>
        <input type="datetime-local" value={when} onInput={(event) => setWhen(event.currentTarget.value)} />
      </label>
      <Button disabled={when === ''} onClick={() => agree(new Date(when).toISOString())}>
        {say('bench.forgottenGo')}
      </Button>
    </div>
  );
}

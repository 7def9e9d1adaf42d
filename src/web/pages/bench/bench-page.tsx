import { useLocation } from 'preact-iso';
import { useEffect, useRef } from 'preact/hooks';
import type { BenchNow, HeatNow } from '../../offline/heat-as-done.ts';
import type { StepGiven } from '../../offline/step-queue.ts';
import { useBench } from '../../offline/use-bench.ts';
import { may, useSession } from '../../session/session.ts';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { WaitingPictures } from '../../ui/photos/waiting-pictures.tsx';
import { useDimPage } from '../../ui/use-dim-page.ts';
import { useWakeLock } from '../../ui/use-wake-lock.ts';
import { useWords } from '../../words/words.ts';
import { BenchTimer } from './bench-timer.tsx';
import { GuessAnswer, GuessFirst } from './guess-first.tsx';
import { nextOf } from './heat-asks.ts';
import { HeatFacts } from './heat-facts.tsx';
import { heatWords } from './heat-in-words.ts';
import { MainButton } from './main-button.tsx';
import { NextStep } from './next-step.tsx';
import { NotTold } from './not-told.tsx';
import { Timers } from './timers.tsx';
import { TutorsYes } from './tutors-yes.tsx';
import { UndoStep } from './undo-step.tsx';
import { WeighLot } from './weigh-lot.tsx';
import { WentWrong } from './went-wrong.tsx';

/** The tablet at the fire: what is next, one heat, one big button. */
export function BenchPage() {
  const words = useWords();
  const { say, moment } = words;
  const session = useSession();
  const { path, query, route } = useLocation();
  const heatId = query['heat'];
  const { queue, now, heat, toldAtMs, known, error, reload } = useBench(session.personId, heatId);
  useWakeLock();
  useDimPage();
  const note = (given: StepGiven) => queue.note(heat?.number ?? '', given);
  const next = heat && nextOf(heat) === undefined ? heatAfter(heat, known) : undefined;
  // The book names no heat that is over as the next; one that is spoilt here stays until its plan is made again. What the device
  // knows of one from before may be older than its new plan.
  const spoiltId = heat?.state === 'spoilt' ? heat.id : undefined;
  const worked = useRef<string>(undefined);
  if (heat && spoiltId === undefined) worked.current = heat.id;
  useEffect(() => {
    if (path === '/bench' && spoiltId !== undefined && spoiltId === worked.current && heatId === undefined)
      route(`/bench?heat=${spoiltId}`, true);
  }, [path, spoiltId, heatId]);
  return (
    <div class="bench">
      <h1 class="visually-hidden">{say('bench.title')}</h1>
      <NotTold queue={queue} error={error} />
      <WaitingPictures />
      <BenchTimer now={now} heat={heat} queue={queue} />
      {error && toldAtMs !== undefined && (
        <p class="soft" role="status">
          {say('bench.toldAt', { at: moment(new Date(toldAtMs).toISOString(), session.studio.timeZone) })}
        </p>
      )}
      {error && toldAtMs === undefined && <ProblemNotice error={error} retry={reload} />}
      {heat ? (
        <>
          <p class="bench-heat">
            {heatWords(heat, words)} <span class="word">{say(`bench.state.${heat.state}`)}</span>
          </p>
          <GuessAnswer heat={heat} queue={queue} />
          {heat.guessFirst.length > 0 ? (
            <GuessFirst key={heat.id} heat={heat} queue={queue} />
          ) : (
            <NextStep key={`${heat.id} ${heat.state}`} heat={heat} note={note} />
          )}
          {nextOf(heat) === undefined && (
            <Done
              heat={heat}
              does={say(spoiltId === undefined ? 'bench.do.next' : 'bench.planAgain')}
              onPress={() =>
                route(spoiltId === undefined ? (next ? `/bench?heat=${next.id}` : '/bench') : `/pieces/${heat.pieceId}/plan`)
              }
            />
          )}
          <div class="bench-sparse">
            <UndoStep queue={queue} heatId={heat.id} />
            <WentWrong key={`wrong ${heat.id} ${heat.state}`} heat={heat} note={note} />
          </div>
          <HeatFacts heat={heat} />
          {session.tutor && <TutorsYes heat={heat} done={reload} />}
          {spoiltId === undefined && (
            <p>
              <a class="button" href={`/pieces/${heat.pieceId}/plan`}>
                {say('bench.planAgain')}
              </a>
            </p>
          )}
        </>
      ) : (
        heatId !== undefined && error && <p class="card">{say('bench.notKnown')}</p>
      )}
      {now && <Choices now={now} shown={heat} known={known} />}
      <Timers />
      {may(session, 'bench') && <WeighLot heat={heat} queue={queue} />}
    </div>
  );
}

function Done({ heat, does, onPress }: { heat: HeatNow; does: string; onPress: () => void }) {
  const { say } = useWords();
  return (
    <section class="bench-next" aria-label={does}>
      <p class="bench-says">{say('bench.says.done', { state: say(`bench.state.${heat.state}`) })}</p>
      <MainButton onPress={onPress}>{does}</MainButton>
    </section>
  );
}

/** The next heat of the same plan that this device knows. */
function heatAfter(heat: HeatNow, known: readonly HeatNow[]): HeatNow | undefined {
  return known
    .filter(({ planId, state, id }) => planId === heat.planId && state === 'laid_out' && id !== heat.id)
    .toSorted((a, b) => a.position - b.position)[0];
}

function Choices({ now, shown, known }: { now: BenchNow; shown: HeatNow | null; known: readonly HeatNow[] }) {
  const { say, named, date } = useWords();
  const others = now.choices.filter(({ heatId }) => heatId !== shown?.id);
  if (others.length === 0) return shown ? null : <p class="card">{say('bench.none')}</p>;
  return (
    <section class="card" aria-labelledby="bench-choose">
      <h2 id="bench-choose">{say(shown ? 'bench.otherHeat' : 'bench.choose')}</h2>
      <div class="bench-choices">
        {others.map(({ heatId, number, title, dueOn, state }) => (
          <a key={heatId} class="button" href={`/bench?heat=${heatId}`}>
            {say('bench.choice', { number, title })},{' '}
            {named('bench.state', known.find(({ id }) => id === heatId)?.state ?? state)}
            {dueOn !== null && `, ${say('bench.choiceDue', { date: date(dueOn) })}`}
          </a>
        ))}
      </div>
    </section>
  );
}

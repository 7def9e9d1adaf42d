import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { Absences } from './absences.tsx';
import { AskDate } from './ask-date.tsx';
import { Benches } from './benches.tsx';
import { hoursOf, loadDates, type Job } from './load-data.ts';
import { LoadCalendar } from './load-calendar.tsx';

/** What is due when, whether it can be kept, and what the coming days have to give. */
export function DatesPage() {
  const { say } = useWords();
  const session = useSession();
  const isOwner = may(session, 'owner');
  const loaded = useLoaded((signal) => loadDates({ isOwner, signal }), [isOwner]);
  return (
    <>
      <h1>{say('dates.title')}</h1>
      <Waiting of={loaded}>
        {(data) => (
          <div class="tiles">
            <div>
              <Late jobs={data.load.rows} />
              <AskDate />
              <LoadCalendar days={data.load.days} absences={data.absences} />
            </div>
            <div>
              <Promised jobs={data.load.rows} />
              <Absences absences={data.absences} people={data.people} changed={loaded.reload} />
              <Benches benches={data.benches} people={data.people} changed={loaded.reload} />
            </div>
          </div>
        )}
      </Waiting>
    </>
  );
}

function Late({ jobs }: { jobs: readonly Job[] }) {
  const { say, date, named } = useWords();
  const late = jobs.filter(({ lateDays, finishesOn, dueOn }) => (lateDays ?? 0) > 0 || (finishesOn === null && dueOn !== null));
  return (
    <section class="card">
      <h2>{say('dates.late')}</h2>
      {late.length === 0 && <p>{say('dates.noneLate')}</p>}
      <ul class="plain-list">
        {late.map(({ commissionId, number, title, dueOn, finishesOn, lateDays, waitingFor }) => (
          <li key={commissionId} class="line">
            <a href={`/commissions/${commissionId}`}>
              {number} {title}
            </a>
            <p class="late">
              {finishesOn === null || dueOn === null
                ? say('dates.neverLine')
                : say('dates.lateLine', { due: date(dueOn), finishes: date(finishesOn), days: lateDays ?? 0 })}
            </p>
            {waitingFor && <p>{say('commission.waiting', { what: named('waiting', waitingFor) })}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Promised({ jobs }: { jobs: readonly Job[] }) {
  const { say, date } = useWords();
  return (
    <section class="card">
      <h2>{say('dates.promised')}</h2>
      {jobs.length === 0 && <p>{say('dates.nonePromised')}</p>}
      <ul class="plain-list">
        {jobs.map(({ commissionId, number, title, dueOn, minutesLeft, finishesOn, slackMinutes }) => (
          <li key={commissionId} class="line">
            <strong>{dueOn ? date(dueOn) : say('dates.noDate')}</strong>{' '}
            <a href={`/commissions/${commissionId}`}>
              {number} {title}
            </a>
            <p class="soft">
              {say('dates.left')}: {hoursOf(minutesLeft)}
              {finishesOn && `; ${say('dates.finishes')}: ${date(finishesOn)}`}
              {slackMinutes !== null && slackMinutes >= 0 && `; ${say('dates.spare')}: ${hoursOf(slackMinutes)}`}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { showQuantity } from '../../units/shown-units.ts';
import { numberOf } from '../../units/typed-number.ts';
import { useWords } from '../../words/words.ts';
import { hoursOf } from './load-data.ts';

type Answer = ReplyOf<'/api/v1/due-dates'>;

/** What may still be promised. */
const NOT_PROMISED: ReadonlySet<string> = new Set(['asked', 'shaping', 'offered']);

/** "Can we make it by then?", asked of everything that is promised already. */
export function AskDate() {
  const { say } = useWords();
  const [asked, setAsked] = useState({ dueOn: '', minutes: '', commissionId: '' });
  const [answer, setAnswer] = useState<Answer>();
  const enquiries = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/commissions', { params: { query: { limit: 200 } }, signal })),
    [],
  );
  const sending = useSending(async () => {
    const { dueOn, minutes, commissionId } = asked;
    const query = { dueOn, minutes: numberOf(minutes) as number, ...(commissionId && { commissionId }) };
    setAnswer(undefined);
    setAnswer(await bodyOf(api.GET('/api/v1/due-dates', { params: { query } })));
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  const set = (part: Partial<typeof asked>) => setAsked((before) => ({ ...before, ...part }));
  const open = (enquiries.value?.items ?? []).filter(({ state }) => NOT_PROMISED.has(state));
  return (
    <section class="card">
      <h2>{say('dates.ask')}</h2>
      <form onSubmit={submit}>
        <div class="columns">
          <Field
            label={say('dates.askBy')}
            type="date"
            value={asked.dueOn}
            onValue={(dueOn) => set({ dueOn })}
            error={sending.error}
            pointer="/dueOn"
            required
          />
          <Field
            label={say('dates.askMinutes')}
            inputMode="decimal"
            value={asked.minutes}
            onValue={(minutes) => set({ minutes })}
            error={sending.error}
            pointer="/minutes"
            required
          />
          <Select
            label={say('dates.askFor')}
            value={asked.commissionId}
            onValue={(commissionId) => set({ commissionId })}
            choices={[
              { value: '', label: say('dates.askForNone') },
              ...open.map(({ id, number, title }) => ({ value: id, label: `${number} ${title}` })),
            ]}
          />
        </div>
        <Button type="submit" busy={sending.busy}>
          {say('dates.askGo')}
        </Button>
      </form>
      <ProblemNotice error={sending.error} sending={sending} />
      <div role="status">{answer && <Answered answer={answer} />}</div>
    </section>
  );
}

function Answered({ answer: { canBeDone, finishesOn, slackMinutes, lateDays, waits, madeLate } }: { answer: Answer }) {
  const words = useWords();
  const { units } = useSession();
  const { say, date } = words;
  const finishes = finishesOn ? date(finishesOn) : '';
  return (
    <>
      <p>
        <strong class={canBeDone ? '' : 'late'}>
          {finishesOn === null
            ? say('dates.never')
            : canBeDone
              ? say('dates.yes', { finishes, spare: hoursOf(slackMinutes) })
              : say('dates.no', { finishes, days: lateDays ?? 0 })}
        </strong>
      </p>
      <ul>
        {waits.map(({ what, shortG, until, because, overdueSince }) => (
          <li key={what}>
            {say(`dates.wait.${because}`, { mass: showQuantity(words, units, 'mass', shortG), what, until: date(until) })}{' '}
            {overdueSince && say('dates.waitOverdue', { since: date(overdueSince) })}
          </li>
        ))}
        {madeLate.map(({ number, lateDays: days }) => (
          <li key={number}>{say('dates.makesLate', { number, days })}</li>
        ))}
      </ul>
    </>
  );
}

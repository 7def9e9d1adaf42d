import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select, Tick } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import { weekdayIn, type Absence, type Hand } from './load-data.ts';

/** Days on which somebody is away or the studio is closed: each takes minutes from the coming weeks. */
export function Absences({
  absences,
  people,
  changed,
}: {
  absences: readonly Absence[];
  people: readonly Hand[];
  changed: () => void;
}) {
  const { say } = useWords();
  const gone = useRef('');
  const removing = useSending(async () => {
    await bodyOf(api.DELETE('/api/v1/absences/{id}', { params: { path: { id: gone.current } } }));
    changed();
  });
  const remove = (id: string) => {
    gone.current = id;
    void removing.send();
  };
  return (
    <section class="card">
      <h2>{say('dates.absences')}</h2>
      {absences.length === 0 && <p>{say('dates.noAbsence')}</p>}
      <ul class="plain-list">
        {absences.map((absence) => (
          <OneAbsence key={absence.id} absence={absence} people={people} remove={() => remove(absence.id)} />
        ))}
      </ul>
      <ProblemNotice error={removing.error} />
      <details>
        <summary>{say('dates.absenceAdd')}</summary>
        <NewAbsence people={people} changed={changed} />
      </details>
    </section>
  );
}

function OneAbsence({ absence, people, remove }: { absence: Absence; people: readonly Hand[]; remove: () => void }) {
  const { say, date, locale, number } = useWords();
  const session = useSession();
  const { personId, firstOn, lastOn, minutesPerDay, weekly, reason } = absence;
  const who =
    personId === null
      ? say('dates.closed')
      : (people.find(({ id }) => id === personId)?.name ?? say(personId === session.personId ? 'dates.you' : 'dates.somebody'));
  const first = date(firstOn);
  const line =
    firstOn === lastOn
      ? say('dates.absenceDay', { who, first, reason })
      : say('dates.absenceLine', { who, first, last: date(lastOn), reason });
  return (
    <li class="line row">
      <span>
        {line}
        {weekly && `; ${say('dates.absenceWeekly', { weekday: weekdayIn(locale, firstOn) })}`}
        {minutesPerDay !== null && `; ${say('dates.absenceMinutes', { minutes: number(minutesPerDay) })}`}
      </span>
      <Button kind="quiet" aria-label={say('dates.absenceRemove', { who, first })} onClick={remove}>
        {say('dates.absenceRemoveShort')}
      </Button>
    </li>
  );
}

const EMPTY = { who: '', firstOn: '', lastOn: '', minutes: '', weekly: false, reason: '' };

function NewAbsence({ people, changed }: { people: readonly Hand[]; changed: () => void }) {
  const { say } = useWords();
  const session = useSession();
  const [draft, setDraft] = useState(EMPTY);
  const set = (part: Partial<typeof EMPTY>) => setDraft((before) => ({ ...before, ...part }));
  const sending = useSending(async (confirming) => {
    const { who, firstOn, lastOn, minutes, weekly, reason } = draft;
    const body = {
      personId: who === '' ? null : who,
      firstOn,
      lastOn: lastOn || firstOn,
      minutesPerDay: minutes === '' ? null : Number(minutes),
      weekly,
      reason,
    };
    await bodyOf(api.POST('/api/v1/absences', { body, headers: confirming }));
    setDraft(EMPTY);
    changed();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  const others = may(session, 'owner') ? people.filter(({ id }) => id !== session.personId) : [];
  return (
    <form onSubmit={submit}>
      <Select
        label={say('dates.absenceWho')}
        value={draft.who}
        onValue={(who) => set({ who })}
        error={error}
        pointer="/personId"
        choices={[
          { value: '', label: say('dates.closed') },
          { value: session.personId, label: session.name },
          ...others.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      <div class="columns">
        <Field
          label={say('dates.absenceFirst')}
          type="date"
          value={draft.firstOn}
          onValue={(firstOn) => set({ firstOn })}
          error={error}
          pointer="/firstOn"
          required
        />
        <Field
          label={say('dates.absenceLast')}
          type="date"
          value={draft.lastOn}
          onValue={(lastOn) => set({ lastOn })}
          error={error}
          pointer="/lastOn"
        />
        <Field
          label={say('dates.absenceMinutesAsked')}
          inputMode="numeric"
          value={draft.minutes}
          onValue={(minutes) => set({ minutes })}
          error={error}
          pointer="/minutesPerDay"
        />
      </div>
      <Tick label={say('dates.absenceWeeklyAsked')} checked={draft.weekly} onChecked={(weekly) => set({ weekly })} />
      <Field
        label={say('dates.absenceReason')}
        value={draft.reason}
        onValue={(reason) => set({ reason })}
        error={error}
        pointer="/reason"
        maxLength={120}
        required
      />
      <ProblemNotice error={error} sending={sending} />
      <Button type="submit" kind="main" busy={sending.busy}>
        {say('shell.save')}
      </Button>
    </form>
  );
}

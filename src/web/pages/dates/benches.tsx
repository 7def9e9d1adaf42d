import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Bench, Hand } from './load-data.ts';

/** The benches and who works at each; the owner says so. */
export function Benches({
  benches,
  people,
  changed,
}: {
  benches: readonly Bench[];
  people: readonly Hand[];
  changed: () => void;
}) {
  const { say } = useWords();
  const session = useSession();
  const isOwner = may(session, 'owner');
  return (
    <section class="card">
      <h2>{say('dates.benches')}</h2>
      {benches.length === 0 && <p>{say('dates.noBench')}</p>}
      <ul class="plain-list">
        {benches.map((bench) => (
          <li key={`${bench.id} ${bench.version}`} class="line">
            {isOwner ? <OneBench bench={bench} people={people} changed={changed} /> : <Told bench={bench} />}
          </li>
        ))}
      </ul>
      {isOwner && <NewBench changed={changed} />}
    </section>
  );
}

function Told({ bench: { name, personId } }: { bench: Bench }) {
  const { say } = useWords();
  const session = useSession();
  const who = personId === null ? 'dates.benchNobody' : personId === session.personId ? 'dates.you' : 'dates.somebody';
  return <>{say('dates.benchLine', { name, who: say(who) })}</>;
}

function OneBench({ bench, people, changed }: { bench: Bench; people: readonly Hand[]; changed: () => void }) {
  const { say } = useWords();
  const { id, name, version } = bench;
  const [personId, setPersonId] = useState(bench.personId ?? '');
  const [minutes, setMinutes] = useState(bench.minutesPerDay === null ? '' : String(bench.minutesPerDay));
  const send = async (body: BodyOf<'/api/v1/benches/{id}', 'patch'>, headers: Record<string, string>) => {
    await bodyOf(
      api.PATCH('/api/v1/benches/{id}', { params: { path: { id }, header: { 'If-Match': `"${version}"` } }, body, headers }),
    );
    changed();
  };
  const saving = useSending((confirming) =>
    send({ personId: personId || null, minutesPerDay: minutes === '' ? null : Number(minutes) }, confirming),
  );
  const closing = useSending((confirming) => send({ active: false }, confirming));
  const isChanged = personId !== (bench.personId ?? '') || minutes !== String(bench.minutesPerDay ?? '');
  return (
    <>
      <h3>{name}</h3>
      <div class="columns">
        <Select
          label={say('dates.benchWho', { name })}
          value={personId}
          onValue={setPersonId}
          error={saving.error}
          pointer="/personId"
          choices={[{ value: '', label: say('dates.benchNobody') }, ...people.map((one) => ({ value: one.id, label: one.name }))]}
        />
        <Field
          label={say('dates.benchMinutes', { name })}
          hint={say('dates.benchMinutesHint')}
          inputMode="numeric"
          value={minutes}
          onValue={setMinutes}
          error={saving.error}
          pointer="/minutesPerDay"
        />
      </div>
      <ProblemNotice error={saving.error} sending={saving} />
      <ProblemNotice error={closing.error} sending={closing} />
      <div class="row">
        {isChanged && (
          <Button busy={saving.busy} onClick={() => void saving.send()}>
            {say('shell.save')}
          </Button>
        )}
        <Button kind="quiet" busy={closing.busy} onClick={() => void closing.send()}>
          {say('dates.benchClose', { name })}
        </Button>
      </div>
    </>
  );
}

function NewBench({ changed }: { changed: () => void }) {
  const { say } = useWords();
  const [name, setName] = useState('');
  const sending = useSending(async (confirming) => {
    await bodyOf(api.POST('/api/v1/benches', { body: { name }, headers: confirming }));
    setName('');
    changed();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="row bench-new" onSubmit={submit}>
      <Field
        label={say('dates.bench')}
        value={name}
        onValue={setName}
        error={sending.error}
        pointer="/name"
        maxLength={60}
        required
      />
      <Button type="submit" busy={sending.busy}>
        {say('dates.benchAdd')}
      </Button>
      <ProblemNotice error={sending.error} sending={sending} />
    </form>
  );
}

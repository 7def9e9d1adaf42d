import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, TextArea } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type Client = ItemOf<'/api/v1/clients'>;
interface Props {
  client: Client;
  changed: (client: Client) => void;
}

/** One client: what we hold, put right, forget, and who looked. */
export function ClientRights({ client, changed }: Props) {
  const { say } = useWords();
  return (
    <>
      <section class="card" aria-labelledby="client">
        <h2 id="client">{client.name}</h2>
        <p>
          <a class="button" href={`/api/v1/clients/${client.id}/held`} target="_self" download>
            {say('clients.held')}
          </a>
        </p>
        {client.forgottenAt === null ? <PutRight client={client} changed={changed} /> : <p>{say('clients.isForgotten')}</p>}
      </section>
      {client.forgottenAt === null && <Forget client={client} changed={changed} />}
      <Looks client={client} />
    </>
  );
}

function PutRight({ client, changed }: Props) {
  const { say } = useWords();
  const { id, version } = client;
  const [typed, setTyped] = useState({
    name: client.name,
    email: client.email ?? '',
    phone: client.phone ?? '',
    postAddress: client.postAddress ?? '',
    notes: client.notes ?? '',
  });
  const saving = useSending(async () => {
    const { name, ...others } = typed;
    const emptied = Object.fromEntries(Object.entries(others).map(([key, value]) => [key, value.trim() === '' ? null : value]));
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    changed(await bodyOf(api.PATCH('/api/v1/clients/{id}', { params, body: { name, ...emptied } })));
  });
  const field = (key: keyof typeof typed) => ({
    value: typed[key],
    onValue: (value: string) => setTyped({ ...typed, [key]: value }),
    error: saving.error,
    pointer: `/${key}`,
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void saving.send();
      }}
    >
      <div class="columns">
        <Field label={say('clients.name')} maxLength={120} required {...field('name')} />
        <Field label={say('clients.email')} type="email" maxLength={254} {...field('email')} />
        <Field label={say('clients.phone')} type="tel" {...field('phone')} />
      </div>
      <TextArea label={say('clients.address')} maxLength={400} {...field('postAddress')} />
      <TextArea label={say('clients.notes')} maxLength={2000} {...field('notes')} />
      <Button type="submit" kind="main" busy={saving.busy}>
        {say('clients.save')}
      </Button>
      <ProblemNotice error={saving.error} />
    </form>
  );
}

function Forget({ client, changed }: Props) {
  const { say } = useWords();
  const [name, setName] = useState('');
  const forgetting = useSending(async () => {
    const params = { path: { id: client.id } };
    changed(await bodyOf(api.POST('/api/v1/clients/{id}/forgetting', { params, body: { name } })));
  });
  return (
    <section class="card" aria-labelledby="forget">
      <h2 id="forget">{say('clients.forget')}</h2>
      <p>{say('clients.forgetLead')}</p>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          void forgetting.send();
        }}
      >
        <Field
          label={say('clients.typeName', { name: client.name })}
          autoComplete="off"
          value={name}
          onValue={setName}
          error={forgetting.error}
          pointer="/name"
          maxLength={120}
          required
        />
        <Button type="submit" kind="danger" busy={forgetting.busy}>
          {say('clients.forgetNow')}
        </Button>
      </form>
      <ProblemNotice error={forgetting.error} />
    </section>
  );
}

function Looks({ client }: Pick<Props, 'client'>) {
  const { say, named, moment } = useWords();
  const { timeZone } = useSession().studio;
  const query = { clientId: client.id, limit: 50 };
  const looks = useLoaded((signal) => bodyOf(api.GET('/api/v1/client-looks', { params: { query }, signal })), []);
  return (
    <section class="card" aria-labelledby="looks">
      <h2 id="looks">{say('clients.looks')}</h2>
      <Waiting of={looks}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map(({ id, person, way, at }) => (
              <li key={id} class="line row">
                <span>{person}</span>
                <span>{named('clients.way', way)}</span>
                <span class="soft">{moment(at, timeZone)}</span>
              </li>
            ))}
          </ul>
        )}
      </Waiting>
    </section>
  );
}

import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { EndedOr } from './ended-or.tsx';

const ROLES = ['bench', 'desk', 'student'] as const;

/** What a token is made worth, as it is chosen. */
function worthOf(chosen: string) {
  const role = ROLES.find((one) => one === chosen);
  return role ? { roles: [role] } : { onlyReads: chosen === 'reads' };
}

/** Tokens: how a program gets in as somebody. */
export function Tokens() {
  const { say } = useWords();
  const session = useSession();
  const query = { limit: 200 };
  const tokens = useLoaded((signal) => bodyOf(api.GET('/api/v1/tokens', { params: { query }, signal })), []);
  const people = useLoaded((signal) => bodyOf(api.GET('/api/v1/people', { params: { query }, signal })), []);
  const [typed, setTyped] = useState({ name: '', personId: session.personId });
  const [worth, setWorth] = useState('all');
  const [secret, setSecret] = useState<string>();
  const making = useSending(async () => {
    const { token } = await bodyOf(api.POST('/api/v1/tokens', { body: { ...typed, ...worthOf(worth) } }));
    setSecret(token);
    setTyped({ ...typed, name: '' });
    tokens.reload();
  });
  const nameOf = (id: string) => people.value?.items.find((person) => person.id === id)?.name ?? '';
  return (
    <section class="card" aria-labelledby="tokens">
      <h2 id="tokens">{say('tokens.title')}</h2>
      <p>{say('tokens.lead')}</p>
      <form
        class="columns"
        onSubmit={(event) => {
          event.preventDefault();
          void making.send();
        }}
      >
        <Field
          label={say('tokens.name')}
          value={typed.name}
          onValue={(name) => setTyped({ ...typed, name })}
          error={making.error}
          pointer="/name"
          maxLength={60}
          required
        />
        <Select
          label={say('tokens.for')}
          value={typed.personId}
          onValue={(personId) => setTyped({ ...typed, personId })}
          choices={(people.value?.items ?? [{ id: session.personId, name: session.name }]).map(({ id, name }) => ({
            value: id,
            label: name,
          }))}
        />
        <Select
          label={say('tokens.worth')}
          value={worth}
          onValue={setWorth}
          error={making.error}
          pointer="/roles/0"
          choices={[
            { value: 'all', label: say('tokens.worth.all') },
            { value: 'reads', label: say('tokens.worth.reads') },
            ...ROLES.map((role) => ({ value: role, label: say('tokens.worth.role', { role: say(`role.${role}`) }) })),
          ]}
        />
        <Button type="submit" kind="main" busy={making.busy}>
          {say('tokens.make')}
        </Button>
      </form>
      {secret && (
        <p role="status">
          {say('tokens.once')} <code class="once">{secret}</code>
        </p>
      )}
      <ProblemNotice error={making.error} />
      <Waiting of={tokens}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map(({ id, name, personId, createdAt, revokedAt, roles, onlyReads }) => (
              <li key={id} class="line row">
                <span>
                  <strong>{name}</strong> <span class="soft">{nameOf(personId)}</span>{' '}
                  {onlyReads && <span class="word">{say('tokens.worth.reads')}</span>}
                  {roles && <span class="word">{roles.map((role) => say(`role.${role}`)).join(', ')}</span>}
                </span>
                <EndedOr
                  name={name}
                  createdAt={createdAt}
                  endedAt={revokedAt}
                  end={() => bodyOf(api.DELETE('/api/v1/tokens/{id}', { params: { path: { id } } }))}
                  done={tokens.reload}
                />
              </li>
            ))}
          </ul>
        )}
      </Waiting>
    </section>
  );
}

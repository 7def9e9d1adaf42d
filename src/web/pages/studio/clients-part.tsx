import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { ClientRights } from './client-rights.tsx';

type Client = ItemOf<'/api/v1/clients'>;

/** What is known of clients: shown, put right and forgotten, and who looked at it. */
export function ClientsPart() {
  const { say } = useWords();
  const [name, setName] = useState('');
  const [chosen, choose] = useState<Client>();
  const query = name.trim() === '' ? { limit: 20 } : { limit: 20, name: name.trim() };
  const clients = useLoaded((signal) => bodyOf(api.GET('/api/v1/clients', { params: { query }, signal })), [name]);
  return (
    <>
      <section class="card" aria-labelledby="clients">
        <h2 id="clients">{say('clients.title')}</h2>
        <p>{say('clients.lead')}</p>
        <Field label={say('clients.find')} type="search" value={name} onValue={setName} maxLength={120} />
        <Waiting of={clients}>
          {({ items }) => (
            <ul class="plain-list">
              {items.map((client) => (
                <li key={client.id} class="line">
                  <Button
                    kind="quiet"
                    aria-expanded={client.id === chosen?.id}
                    onClick={() => choose(client.id === chosen?.id ? undefined : client)}
                  >
                    {client.name}
                  </Button>
                </li>
              ))}
            </ul>
          )}
        </Waiting>
      </section>
      {chosen && (
        <ClientRights
          key={chosen.id + String(chosen.version)}
          client={chosen}
          changed={(client) => {
            choose(client);
            clients.reload();
          }}
        />
      )}
    </>
  );
}

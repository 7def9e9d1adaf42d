import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { EndedOr } from './ended-or.tsx';

/** Tablets that several people use by their PINs. */
export function SharedTablets() {
  const { say } = useWords();
  const session = useSession();
  const [name, setName] = useState('');
  const tablets = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/shared-tablets', { params: { query: { limit: 200 } }, signal })),
    [],
  );
  const making = useSending(async () => {
    await bodyOf(api.POST('/api/v1/shared-tablets', { body: { name } }));
    // It signs out whoever made it.
    session.reload();
  });
  return (
    <section class="card" aria-labelledby="tablets">
      <h2 id="tablets">{say('tablets.title')}</h2>
      <p>{say('tablets.lead')}</p>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          void making.send();
        }}
      >
        <Field
          label={say('tablets.name')}
          value={name}
          onValue={setName}
          error={making.error}
          pointer="/name"
          maxLength={40}
          required
        />
        <Button type="submit" busy={making.busy}>
          {say('tablets.make')}
        </Button>
      </form>
      <ProblemNotice error={making.error} />
      <Waiting of={tablets}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map((tablet) => (
              <li key={tablet.id} class="line row">
                <strong>{tablet.name}</strong>
                <EndedOr
                  name={tablet.name}
                  createdAt={tablet.createdAt}
                  endedAt={tablet.revokedAt}
                  end={() => bodyOf(api.DELETE('/api/v1/shared-tablets/{id}', { params: { path: { id: tablet.id } } }))}
                  done={tablets.reload}
                />
              </li>
            ))}
          </ul>
        )}
      </Waiting>
      <p class="line">
        <a href="/docs/tablet" target="_self">
          {say('mine.tablet')}
        </a>
      </p>
    </section>
  );
}

import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { EndedOr } from './ended-or.tsx';

/** Where somebody is signed in; the owner is shown everybody. */
export function MySessions() {
  const { say, moment } = useWords();
  const { timeZone } = useSession().studio;
  const query = { limit: 200 };
  const sessions = useLoaded((signal) => bodyOf(api.GET('/api/v1/sessions', { params: { query }, signal })), []);
  return (
    <section class="card" aria-labelledby="sessions">
      <h2 id="sessions">{say('sessions.title')}</h2>
      <p>{say('sessions.lead')}</p>
      <Waiting of={sessions}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map(({ id, personName, tablet, createdAt, isThisOne }) => (
              <li key={id} class="line row">
                <span>
                  <strong>{personName}</strong> {tablet && <span class="soft">{tablet}</span>}
                </span>
                {isThisOne ? (
                  <span class="soft">{say('sessions.here', { at: moment(createdAt, timeZone) })}</span>
                ) : (
                  <EndedOr
                    name={`${personName}, ${moment(createdAt, timeZone)}`}
                    createdAt={createdAt}
                    endedAt={null}
                    end={() => bodyOf(api.DELETE('/api/v1/sessions/{id}', { params: { path: { id } } }))}
                    done={sessions.reload}
                  />
                )}
              </li>
            ))}
          </ul>
        )}
      </Waiting>
    </section>
  );
}

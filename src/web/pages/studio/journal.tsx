import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { changesOf, type Change } from './journal-changes.ts';

type Line = ItemOf<'/api/v1/journal'>;

/** Who wrote what, newest first. */
export function Journal() {
  const { say } = useWords();
  const [cursors, setCursors] = useState<readonly (number | undefined)[]>([undefined]);
  const cursor = cursors.at(-1);
  const lines = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/journal', { params: { query: { limit: 50, ...(cursor && { cursor }) } }, signal })),
    [cursor],
  );
  return (
    <section class="card" aria-labelledby="journal">
      <h2 id="journal">{say('journal.title')}</h2>
      <p>{say('journal.lead')}</p>
      <Waiting of={lines}>
        {({ items, nextCursor }) => (
          <>
            <ul class="plain-list">
              {items.map((line) => (
                <JournalLine key={line.seq} line={line} />
              ))}
            </ul>
            <div class="row">
              {cursors.length > 1 && <Button onClick={() => setCursors(cursors.slice(0, -1))}>{say('journal.newer')}</Button>}
              {nextCursor !== null && (
                <Button onClick={() => setCursors([...cursors, Number(nextCursor)])}>{say('journal.older')}</Button>
              )}
            </div>
          </>
        )}
      </Waiting>
    </section>
  );
}

function JournalLine({ line: { at, person, deviceId, what, before, after, confirmed } }: { line: Line }) {
  const { say, named, moment } = useWords();
  const { studio } = useSession();
  // Of what happened without being a thing, such as a sign-in, nothing is new.
  const isNew = (before === null || before === undefined) && typeof asThing(after)?.['id'] === 'string';
  return (
    <li class="line">
      <details>
        <summary>
          {moment(at, studio.timeZone)}: {person ?? say('journal.server')}, {named('journal.what', what.replaceAll('-', '_'))}{' '}
          <strong>{calledBy(after ?? before)}</strong>
          {isNew && <span class="soft"> {say('journal.new')}</span>}
        </summary>
        {deviceId && <p class="soft">{say('journal.device', { device: deviceId })}</p>}
        {confirmed && <p>{say('journal.confirmed', { reason: confirmed.reason })}</p>}
        <Changes what={what} before={before} after={after} />
      </details>
    </li>
  );
}

const asThing = (thing: unknown) => (typeof thing === 'object' ? (thing as Readonly<Record<string, unknown>> | null) : null);

/** What people call it: its number and its name, where it has them. */
function calledBy(thing: unknown): string {
  const named = ['number', 'code', 'jointId', 'name', 'title'].map((field) => asThing(thing)?.[field]);
  return named.filter((one) => typeof one === 'string' || typeof one === 'number').join(' ');
}

/** What a line wrote: of a new thing all of it, of a changed one what is not as it was. */
function Changes({ what, before, after }: Pick<Line, 'what' | 'before' | 'after'>) {
  const { say, named, moment } = useWords();
  const { studio } = useSession();
  const changes = changesOf(before, after);
  const shown = (value: unknown) => {
    if (value === undefined || value === null) return '–';
    if (typeof value === 'boolean') return say(value ? 'journal.yes' : 'journal.no');
    if (typeof value !== 'string') return JSON.stringify(value);
    return /^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(value) ? moment(value, studio.timeZone) : value;
  };
  const wordOf = ({ path }: Change) => {
    if (what === 'settings') return named('setting', path.join('.'), { currency: studio.currency });
    const [field, ...inside] = path;
    return [named('journal.field', field!), ...inside].join(', ');
  };
  return (
    <div class="journal-values" tabIndex={0} role="group" aria-label={named('journal.what', what.replaceAll('-', '_'))}>
      <dl>
        {changes.map((change) => (
          <div key={change.path.join('.')}>
            <dt>{wordOf(change)}</dt>
            <dd>
              {before === null || before === undefined
                ? shown(change.after)
                : say('journal.change', { before: shown(change.before), after: shown(change.after) })}
            </dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

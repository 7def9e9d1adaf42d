import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Select } from '../../ui/field.tsx';
import { Table } from '../../ui/table.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

const OVER: ReadonlySet<string> = new Set(['turned_down', 'settled', 'called_off', 'gone_quiet']);

/** Every commission, newest first; those under way unless all are asked for. */
export function CommissionList() {
  const { say, named, date } = useWords();
  const session = useSession();
  const [shown, setShown] = useState('open');
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/commissions', { params: { query: { limit: 200 } }, signal })), []);
  return (
    <>
      <h1>{say('commissions.title')}</h1>
      <div class="row">
        <Select
          label={say('commissions.state')}
          value={shown}
          onValue={setShown}
          choices={[
            { value: 'open', label: say('commissions.open') },
            { value: 'all', label: say('commissions.all') },
          ]}
        />
        {may(session, 'desk') && (
          <a class="button button-main" href="/commissions/new">
            {say('commissions.new')}
          </a>
        )}
      </div>
      <Waiting of={loaded}>
        {({ items }) => {
          const rows = items.filter(({ state }) => shown === 'all' || !OVER.has(state));
          return rows.length === 0 ? (
            <p class="card">{say('commissions.none')}</p>
          ) : (
            <Table
              label={say('commissions.title')}
              named
              keyOf={({ id }) => id}
              rows={rows}
              columns={[
                {
                  head: say('commissions.what'),
                  of: ({ id, number, title }) => (
                    <>
                      <a href={`/commissions/${id}`}>{number}</a> {title}
                    </>
                  ),
                },
                { head: say('commissions.client'), of: ({ clientName }) => clientName ?? '–' },
                {
                  head: say('commissions.due'),
                  of: ({ dueOn }) => (dueOn ? date(dueOn) : '–'),
                  mark: ({ daysToDue, state }) => (daysToDue !== null && daysToDue < 0 && !OVER.has(state) ? 'late' : undefined),
                },
                {
                  head: say('commissions.state'),
                  of: ({ state, waitingFor }) => (
                    <>
                      {named('commission.state', state)}
                      {waitingFor && (
                        <span class="soft beneath">{say('commission.waiting', { what: named('waiting', waitingFor) })}</span>
                      )}
                    </>
                  ),
                },
              ]}
            />
          );
        }}
      </Waiting>
    </>
  );
}

import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { DrawerHead } from './drawer-head.tsx';

/** Every stocktake, newest first, and the beginning of another. */
export function StocktakeList() {
  const { say, named, moment } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/stocktakes', { params: { query: { limit: 50 } }, signal })), []);
  return (
    <>
      <DrawerHead title={say('drawer.room.stocktake')} />
      <section class="card">
        <p>{say('count.lead')}</p>
        {may(session, 'bench') && <Begin />}
        <Waiting of={loaded}>
          {({ items }) =>
            items.length === 0 ? (
              <p>{say('count.none')}</p>
            ) : (
              <ul class="plain-list">
                {items.map(({ id, number, state, createdAt }) => (
                  <li key={id} class="line lot-line">
                    <a href={`/drawer/stocktake/${id}`}>{say('count.title', { number })}</a>
                    <span class="word">{named('stocktake.state', state)}</span>
                    <span class="soft">{moment(createdAt, session.studio.timeZone)}</span>
                  </li>
                ))}
              </ul>
            )
          }
        </Waiting>
      </section>
    </>
  );
}

function Begin() {
  const { say } = useWords();
  const { route } = useLocation();
  const [key] = useState(idempotencyKey);
  const sending = useSending(async (confirming) => {
    const { id } = await bodyOf(api.POST('/api/v1/stocktakes', { body: {}, headers: { 'idempotency-key': key, ...confirming } }));
    route(`/drawer/stocktake/${id}`);
  });
  return (
    <>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button kind="main" busy={sending.busy} onClick={() => void sending.send()}>
        {say('count.begin')}
      </Button>
    </>
  );
}

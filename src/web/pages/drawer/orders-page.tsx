import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { DrawerHead } from './drawer-head.tsx';
import { ReorderList } from './reorder-list.tsx';
import { Suppliers } from './suppliers.tsx';

/** What to order, by supplier, and the orders so far. */
export function OrdersPage() {
  const { say, named, date } = useWords();
  const session = useSession();
  const [round, setRound] = useState(0);
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/supplier-orders', { params: { query: { limit: 100 } }, signal })),
    [],
  );
  return (
    <>
      <DrawerHead title={say('drawer.room.orders')} />
      {may(session, 'desk') && <ReorderList key={round} />}
      <section class="card" aria-labelledby="orders">
        <h2 id="orders">{say('orders.orders')}</h2>
        <Waiting of={loaded}>
          {({ items }) =>
            items.length === 0 ? (
              <p>{say('orders.none')}</p>
            ) : (
              <ul class="plain-list">
                {items.map(({ id, number, supplier, state, sentOn, expectedOn }) => (
                  <li key={id} class="line lot-line">
                    <a href={`/drawer/orders/${id}`}>{say('orders.title', { number, supplier })}</a>
                    <span class="word">{named('order.state', state)}</span>
                    {sentOn !== null && <span class="soft">{say('orders.sentOn', { date: date(sentOn) })}</span>}
                    {expectedOn !== null && <span class="soft">{say('orders.expectedOn', { date: date(expectedOn) })}</span>}
                  </li>
                ))}
              </ul>
            )
          }
        </Waiting>
      </section>
      {may(session, 'desk') && <Suppliers changed={() => setRound(round + 1)} />}
    </>
  );
}

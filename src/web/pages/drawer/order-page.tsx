import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { moneyTyped } from '../../units/typed-money.ts';
import { Moves, type MoveField, type MoveSent } from '../../ui/moves.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { Delivery } from './delivery.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { EditLines } from './edit-lines.tsx';
import { OrderLines } from './order-lines.tsx';

type Order = ReplyOf<'/api/v1/supplier-orders/{id}'>;

const REASON: MoveField = { name: 'reason', kind: 'text' };
const ASKS: Readonly<Record<string, readonly MoveField[]>> = {
  promised: [{ name: 'promisedOn', kind: 'date' }],
  in: [{ name: 'closeShort', kind: 'tick' }],
  squared: [{ name: 'invoice', kind: 'number' }, REASON],
  called_off: [REASON],
};

/** One order: what was asked for, what came, and what may happen next. */
export function OrderPage({ id }: { id: string }) {
  const { say, named, date } = useWords();
  const session = useSession();
  const { studio } = session;
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/supplier-orders/{id}', { params: { path: { id } }, signal })),
    [id],
  );
  return (
    <Waiting of={loaded}>
      {(order) => (
        <>
          <DrawerHead title={say('orders.title', { number: order.number, supplier: order.supplier })} />
          <p>
            <span class="word">{named('order.state', order.state)}</span> {order.stateReason}{' '}
            <span class="soft">
              {[
                order.sentOn !== null && say('orders.sentOn', { date: date(order.sentOn) }),
                order.expectedOn !== null && say('orders.expectedOn', { date: date(order.expectedOn) }),
              ]
                .filter(Boolean)
                .join(', ')}
            </span>
          </p>
          <Moves
            thing={order}
            to="/api/v1/supplier-orders/{id}/moves"
            words="order.move"
            asks={ASKS}
            done={loaded.reload}
            bodyFrom={(move) => inMinorUnits(move, studio.currency)}
          />
          <OrderLines order={order} />
          {order.state === 'to_order' && may(session, 'desk') && (
            <EditLines key={order.version} order={order} show={loaded.put} />
          )}
          <Sums order={order} />
          <Delivery order={order} show={loaded.put} />
        </>
      )}
    </Waiting>
  );
}

function Sums({ order: { total, received, invoice } }: { order: Order }) {
  const { say, money } = useWords();
  if (!total) return null;
  const sums = [
    { word: say('orders.sum'), amount: total },
    { word: say('orders.receivedSum'), amount: received },
    { word: say('orders.invoice'), amount: invoice },
  ];
  return (
    <section class="card">
      <dl class="pairs">
        {sums.map(
          ({ word, amount }) =>
            amount && (
              <div key={word}>
                <dt>{word}</dt>
                <dd class="figure">{money(amount.amountMinor, amount.currency)}</dd>
              </div>
            ),
        )}
      </dl>
    </section>
  );
}

function inMinorUnits({ invoice, ...move }: MoveSent, currency: string): object {
  if (typeof invoice !== 'number') return move;
  return { ...move, invoice: moneyTyped(String(invoice), currency) };
}

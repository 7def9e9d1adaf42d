import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { moneyTyped } from '../../units/typed-money.ts';
import { Moves, type MoveField } from '../../ui/moves.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import type { Commission } from './base-price.ts';
import { Cancellation } from './cancellation.tsx';
import { NotePayment } from './note-payment.tsx';

type Payment = ItemOf<'/api/v1/payments'>;

const ASKS: Readonly<Record<string, readonly MoveField[]>> = { part_sent_back: [{ name: 'amount', kind: 'text' }] };

/** What was agreed, what came in and what is owed; every payment with its receipt, and the next one to note. */
export function MoneyCard({ commission, changed }: { commission: Commission; changed: () => void }) {
  const { say, money } = useWords();
  const session = useSession();
  const { id, account } = commission;
  const payments = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/payments', { params: { query: { commissionId: id, limit: 100 } }, signal })),
    [id],
  );
  const done = () => {
    payments.reload();
    changed();
  };
  return (
    <section class="card price-part" aria-labelledby="money">
      <h2 id="money">{say('commission.account')}</h2>
      <dl class="pairs">
        {(['gross', 'deposit', 'received', 'balance'] as const).map((part) => {
          const amount = account?.[part] ?? null;
          return (
            <div key={part}>
              <dt>{say(`commission.${part}`)}</dt>
              <dd class="figure">{amount ? money(amount.amountMinor, amount.currency) : '–'}</dd>
            </div>
          );
        })}
      </dl>
      <Waiting of={payments}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map((payment) => (
              <PaymentLine key={payment.id} payment={payment} done={done} />
            ))}
          </ul>
        )}
      </Waiting>
      <NotePayment key={account?.balance.amountMinor} commission={commission} done={done} />
      {may(session, 'owner') && <Cancellation id={id} round={account?.received.amountMinor ?? 0} />}
    </section>
  );
}

function PaymentLine({ payment, done }: { payment: Payment; done: () => void }) {
  const { say, named, money, date } = useWords();
  const { id, kind, amount, how, receivedOn, dueOn, state, sentBack, reason } = payment;
  const receipt = `/api/v1/documents/payment-receipts/${id}`;
  const shown = money(amount.amountMinor, amount.currency);
  return (
    <li class="line">
      <p>
        <strong>{named('payment.kind', kind)}</strong> <span class="figure">{shown}</span>, {named('payment.how', how)}{' '}
        {receivedOn ? date(receivedOn) : dueOn && say('payment.dueBy', { date: date(dueOn) })}{' '}
        <span class="word">{named('payment.state', state)}</span>
        {sentBack.amountMinor > 0 && `, ${say('payment.backOf', { amount: money(sentBack.amountMinor, sentBack.currency) })}`}
        {reason && <span class="soft">: {reason}</span>}
      </p>
      {state !== 'due' && (
        <span class="letter-links">
          <a href={receipt} target="_blank" rel="noopener" aria-label={say('payment.receiptOf', { amount: shown })}>
            {say('payment.receipt')}
          </a>{' '}
          <a
            href={`${receipt}?format=pdf`}
            target="_blank"
            rel="noopener"
            aria-label={say('payment.receiptPdfOf', { amount: shown })}
          >
            PDF
          </a>
        </span>
      )}
      {payment.allowedMoves.length > 0 && (
        <Moves
          thing={payment}
          to="/api/v1/payments/{id}/moves"
          words="payment.move"
          asks={ASKS}
          done={done}
          bodyFrom={({ amount: typed, ...move }) => ({
            ...move,
            ...(typeof typed === 'string' && { amount: moneyTyped(typed, amount.currency) }),
          })}
        />
      )}
    </li>
  );
}

import { useMemo, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { moneyInField, moneyTyped } from '../../units/typed-money.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select, Tick } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import type { Commission } from './base-price.ts';

type NewPayment = BodyOf<'/api/v1/payments', 'post'>;
interface Draft extends Pick<NewPayment, 'kind' | 'how'> {
  amount: string;
  on: string;
  isDue: boolean;
  reason: string;
}

const HOW = ['cash', 'card', 'transfer', 'other'] as const;

/** Notes money that came in, was asked for, or goes back; the amount that is usual stands there already. */
export function NotePayment({ commission, done }: { commission: Commission; done: () => void }) {
  const { say, named, locale } = useWords();
  const session = useSession();
  const { id, account } = commission;
  const { currency } = account?.gross ?? account?.received ?? session.studio;
  const isFirst = (account?.received.amountMinor ?? 0) === 0;
  const usually = (kind: string) => {
    const amount = kind === 'deposit' ? account?.deposit : kind === 'balance' ? account?.balance : null;
    return amount && amount.amountMinor > 0 ? moneyInField(locale, amount) : '';
  };
  const start = isFirst ? 'deposit' : 'balance';
  const { draft, change, drop } = useDraft<Draft>(`payment:${id}`, {
    kind: start,
    amount: usually(start),
    how: 'transfer',
    on: '',
    isDue: false,
    reason: '',
  });
  const set = (part: Partial<Draft>) => change({ ...draft, ...part });
  const [round, setRound] = useState(0);
  // What was sent before under a key is another thing than what is typed now.
  const key = useMemo(idempotencyKey, [JSON.stringify(draft), round]);
  const sending = useSending(async (confirming) => {
    const { kind, how, on, isDue, reason } = draft;
    const day = on === '' ? {} : isDue ? { dueOn: on } : { receivedOn: on };
    const body: NewPayment = {
      commissionId: id,
      kind,
      how,
      amount: moneyTyped(draft.amount, currency),
      reason: reason.trim() === '' ? null : reason,
      ...day,
    };
    await bodyOf(api.POST('/api/v1/payments', { body, headers: { 'idempotency-key': key, ...confirming } }));
    drop();
    setRound(round + 1);
    done();
  });
  const { error } = sending;
  const kinds = (['deposit', 'stage', 'balance', 'send_back'] as const).filter(
    (kind) => kind !== 'send_back' || may(session, 'owner'),
  );
  return (
    <form
      aria-labelledby="note-payment"
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <h3 id="note-payment">{say('payment.note')}</h3>
      <div class="columns">
        <Select
          label={say('payment.kind')}
          value={draft.kind}
          onValue={(kind) => set({ kind: kind as NewPayment['kind'], amount: usually(kind) })}
          choices={kinds.map((value) => ({ value, label: named('payment.kind', value) }))}
        />
        <Field
          label={say('payment.amount', { currency })}
          value={draft.amount}
          onValue={(amount) => set({ amount })}
          inputMode="decimal"
          error={error}
          pointer="/amount/amountMinor"
        />
        <Select
          label={say('payment.how')}
          value={draft.how}
          onValue={(how) => set({ how: how as NewPayment['how'] })}
          choices={HOW.map((value) => ({ value, label: named('payment.how', value) }))}
        />
        <Field
          label={say(draft.isDue ? 'payment.dueOn' : 'payment.receivedOn')}
          hint={draft.isDue ? undefined : say('payment.todayHint')}
          type="date"
          value={draft.on}
          onValue={(on) => set({ on })}
          error={error}
          pointer={draft.isDue ? '/dueOn' : '/receivedOn'}
        />
        {draft.kind === 'send_back' && (
          <Field
            label={say('moves.reason')}
            value={draft.reason}
            onValue={(reason) => set({ reason })}
            error={error}
            pointer="/reason"
            maxLength={200}
          />
        )}
      </div>
      {draft.kind !== 'send_back' && (
        <Tick label={say('payment.isDue')} checked={draft.isDue} onChecked={(isDue) => set({ isDue })} />
      )}
      <Button kind="main" type="submit" busy={sending.busy}>
        {say('payment.save')}
      </Button>
      <ProblemNotice error={error} sending={sending} />
    </form>
  );
}

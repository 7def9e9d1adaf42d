import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { moneyTyped } from '../../units/typed-money.ts';
import { numberOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

const WORKING_DAYS_A_WEEK = 5;

/** A supplier that products name but the book does not know yet: needed to order there. */
export function NoteSupplier({ name, leadWeeks, done }: { name: string; leadWeeks: number | undefined; done: () => void }) {
  const { say } = useWords();
  const { studio } = useSession();
  const [leadDays, setLeadDays] = useState(leadWeeks === undefined ? '' : String(leadWeeks * WORKING_DAYS_A_WEEK));
  const [minimum, setMinimum] = useState('');
  const sending = useSending(async (confirming) => {
    await bodyOf(
      api.POST('/api/v1/suppliers', {
        body: {
          name,
          leadWorkingDays: numberOf(leadDays) as number,
          ...(minimum.trim() !== '' && { minimum: moneyTyped(minimum, studio.currency) }),
        },
        headers: confirming,
      }),
    );
    done();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="notice" onSubmit={submit}>
      <p>{say('orders.noteSupplier')}</p>
      <div class="columns">
        <Field
          label={say('orders.leadDays')}
          value={leadDays}
          onValue={setLeadDays}
          inputMode="numeric"
          error={sending.error}
          pointer="/leadWorkingDays"
          required
        />
        <Field
          label={say('orders.minimum', { currency: studio.currency })}
          hint={say('orders.minimumHint')}
          value={minimum}
          onValue={setMinimum}
          inputMode="decimal"
          error={sending.error}
          pointer="/minimum/amountMinor"
        />
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button type="submit" busy={sending.busy}>
        {say('orders.noteIt')}
      </Button>
    </form>
  );
}

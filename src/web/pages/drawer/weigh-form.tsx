import { useRef, useState } from 'preact/hooks';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';

/** What is sent of a weighing. */
export interface Weighing {
  body: { weighedG: number; reason: string };
  headers: Record<string, string>;
}

/**
 * What the scale says of a lot: the book follows it.
 *
 * @param weigh sends it, and says what came of it
 */
export function WeighForm({ weigh, after }: { weigh: (weighing: Weighing) => Promise<Done>; after: () => void }) {
  const { say } = useWords();
  const [weighedG, setWeighedG] = useState<number>();
  const [reason, setReason] = useState('');
  const [last, setLast] = useState<Done>();
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    const headers = { 'idempotency-key': key.current, ...confirming };
    const done = await weigh({ body: { weighedG: weighedG as number, reason }, headers });
    key.current = idempotencyKey();
    setWeighedG(undefined);
    setReason('');
    setLast(done);
    after();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="card" aria-labelledby="weigh" onSubmit={submit}>
      <h2 id="weigh">{say('lot.weigh')}</h2>
      <div class="columns">
        <QuantityField
          label={say('lot.weighed')}
          quantity="mass"
          value={weighedG}
          onValue={setWeighedG}
          error={sending.error}
          pointer="/weighedG"
        />
        <Field
          label={say('lot.weighReason')}
          hint={say('lot.weighReasonHint')}
          value={reason}
          onValue={setReason}
          error={sending.error}
          pointer="/reason"
          maxLength={200}
          required
        />
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button type="submit" kind="main" busy={sending.busy}>
        {say('lot.weigh')}
      </Button>
      <JustDone done={last} after={after} />
    </form>
  );
}

import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';
import { takeSolderBack } from './take-movement-back.ts';

const KINDS = ['use', 'put_back', 'scrap'] as const;
type Kind = (typeof KINDS)[number];

/** Solder that no heat of a plan used: a trial, a repair by hand, a chip that was lost. */
export function UseByHand({ lotId, reload }: { lotId: string; reload: () => void }) {
  const words = useWords();
  const { say, named } = words;
  const { units } = useSession();
  const [kind, setKind] = useState<Kind>('use');
  const [quantityG, setQuantityG] = useState<number>();
  const [reason, setReason] = useState('');
  const [last, setLast] = useState<Done>();
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    setLast(undefined);
    // A field that is left empty is the server's to refuse, at its place.
    const body = { kind, lotId, quantityG: quantityG as number, reason };
    const headers = { 'idempotency-key': key.current, ...confirming };
    const made = await bodyOf(api.POST('/api/v1/stock-movements', { body, headers }));
    const amount = showQuantity(words, units, 'mass', Math.abs(made.onHandG), 3);
    setLast({
      id: made.id,
      says: say('supply.booked', { what: named('movement', kind), amount }),
      takeBack: (back) => takeSolderBack(made.id, back),
    });
    key.current = idempotencyKey();
    setQuantityG(undefined);
    setReason('');
    reload();
  });
  const { error } = sending;
  return (
    <form
      class="card"
      aria-labelledby="use-by-hand"
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <h2 id="use-by-hand">{say('lot.use')}</h2>
      <p class="soft">{say('lot.useLead')}</p>
      <div class="columns">
        <Select
          label={say('metal.kind')}
          value={kind}
          onValue={(value) => setKind(value as Kind)}
          choices={KINDS.map((value) => ({ value, label: named('movement', value) }))}
        />
        <QuantityField
          key={key.current}
          label={say('metal.quantity')}
          quantity="mass"
          value={quantityG}
          onValue={setQuantityG}
          error={error}
          pointer="/quantityG"
        />
        <Field
          label={say('moves.reason')}
          hint={say('lot.useReasonHint')}
          value={reason}
          onValue={setReason}
          error={error}
          pointer="/reason"
          maxLength={200}
          required
        />
      </div>
      <ProblemNotice error={error} sending={sending} />
      <Button type="submit" busy={sending.busy}>
        {say('metal.bookIt')}
      </Button>
      <JustDone done={last} after={reload} />
    </form>
  );
}

import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { dayIn } from './day-in.ts';
import { takeMetalLotBack } from './take-movement-back.ts';

/** Metal of ours that came in without an order in the book, at the price of its product. */
export function ReceiveMetal({ products: known, done }: { products: number; done: () => void }) {
  const { say } = useWords();
  const session = useSession();
  const { studio } = session;
  const products = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/metal-products', { params: { query: { active: 'true' as const, limit: 200 } }, signal })),
    [known],
  );
  const [chosen, setChosen] = useState('');
  const [quantityG, setQuantityG] = useState<number>();
  const [receivedOn, setReceivedOn] = useState(() => dayIn(studio.timeZone));
  const [last, setLast] = useState<Done>();
  const key = useRef(idempotencyKey());
  const productId = chosen || (products.value?.items[0]?.id ?? '');
  const sending = useSending(async (confirming) => {
    const lot = await bodyOf(
      api.POST('/api/v1/metal-lots', {
        body: { productId, receivedOn, ...(quantityG !== undefined && { quantityG }) },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    setQuantityG(undefined);
    setLast({
      id: lot.id,
      says: say('receive.done', { number: lot.number }),
      ...(may(session, 'owner') && { takeBack: (back) => takeMetalLotBack(lot.id, back) }),
    });
    done();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <details class="card">
      <summary>{say('metal.receive')}</summary>
      <Waiting of={products}>
        {({ items }) =>
          items.length === 0 ? (
            <p>{say('metal.noProducts')}</p>
          ) : (
            <form onSubmit={submit}>
              <div class="columns">
                <Select
                  label={say('receive.product')}
                  value={productId}
                  onValue={setChosen}
                  choices={items.map(({ id, name }) => ({ value: id, label: name }))}
                />
                <QuantityField
                  label={say('receive.quantity')}
                  quantity="mass"
                  value={quantityG}
                  onValue={setQuantityG}
                  error={sending.error}
                  pointer="/quantityG"
                />
                <Field
                  label={say('receive.on')}
                  type="date"
                  value={receivedOn}
                  onValue={setReceivedOn}
                  error={sending.error}
                  pointer="/receivedOn"
                  required
                />
              </div>
              <ProblemNotice error={sending.error} sending={sending} />
              <Button type="submit" kind="main" busy={sending.busy}>
                {say('receive.save')}
              </Button>
            </form>
          )
        }
      </Waiting>
      <JustDone done={last} after={done} />
    </details>
  );
}

import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { decimalOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { PriceFields } from './price-fields.tsx';
import { takeLotBack } from './take-movement-back.ts';

interface Draft {
  productId: string;
  receivedOn: string;
  quantityG?: number | undefined;
  entered?: string | undefined;
  amount: string;
  per: MassUnit;
  mark: string;
  useBy: string;
}

/** A lot that came in without an order in the book. @param products how many the drawer has: one that was added may have come in too */
export function ReceiveLot({ today, products: known, done }: { today: string; products: number; done: () => void }) {
  const { say } = useWords();
  const session = useSession();
  const { studio } = session;
  const products = useLoaded(
    (signal) =>
      bodyOf(api.GET('/api/v1/solder-products', { params: { query: { active: 'true' as const, limit: 200 } }, signal })),
    [today, known],
  );
  const [last, setLast] = useState<Done>();
  const empty: Draft = { productId: '', receivedOn: today, amount: '', per: 'g', mark: '', useBy: '' };
  const { draft, isChanged, change, drop } = useDraft<Draft>('receive-lot', empty);
  const set = (part: Partial<Draft>) => change({ ...draft, ...part });
  const key = useRef(idempotencyKey());
  const items = products.value?.items ?? [];
  const productId = draft.productId || (items[0]?.id ?? '');
  const sending = useSending(async (confirming) => {
    const lot = await bodyOf(
      api.POST('/api/v1/solder-lots', {
        body: {
          productId,
          receivedOn: draft.receivedOn,
          quantityG: draft.quantityG as number,
          unitCost: { amount: decimalOf(draft.amount), per: draft.per },
          markOnMetal: draft.mark.trim() || null,
          useBy: draft.useBy || null,
        },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    drop();
    setLast({
      id: lot.id,
      says: say('receive.done', { number: lot.number }),
      ...(may(session, 'owner') && { takeBack: (back) => takeLotBack(lot.id, back) }),
    });
    done();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <section class="card">
      <details open={isChanged || undefined}>
        <summary>{say('receive.title')}</summary>
        <form onSubmit={submit}>
          <div class="columns">
            <Select
              label={say('receive.product')}
              value={productId}
              onValue={(id) => set({ productId: id })}
              error={error}
              pointer="/productId"
              choices={items.map(({ id, name }) => ({ value: id, label: name }))}
            />
            <Field
              label={say('receive.on')}
              type="date"
              value={draft.receivedOn}
              onValue={(receivedOn) => set({ receivedOn })}
              error={error}
              pointer="/receivedOn"
              required
            />
            <QuantityField
              label={say('receive.quantity')}
              quantity="mass"
              value={draft.quantityG}
              entered={draft.entered}
              onValue={(quantityG, entered) => set({ quantityG, entered: entered ?? undefined })}
              error={error}
              pointer="/quantityG"
            />
            <Field
              label={say('receive.mark')}
              hint={say('receive.markHint')}
              value={draft.mark}
              onValue={(mark) => set({ mark })}
              error={error}
              pointer="/markOnMetal"
              maxLength={6}
            />
            <PriceFields
              label={say('receive.paid', { currency: studio.currency })}
              amount={draft.amount}
              per={draft.per}
              onValue={set}
              error={error}
              pointer="/unitCost"
            />
            <Field
              label={say('receive.useBy')}
              hint={say('receive.useByHint')}
              type="date"
              value={draft.useBy}
              onValue={(useBy) => set({ useBy })}
              error={error}
              pointer="/useBy"
            />
          </div>
          <ProblemNotice error={error} sending={sending} />
          <div class="row">
            <Button type="submit" kind="main" busy={sending.busy}>
              {say('receive.save')}
            </Button>
            {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
          </div>
        </form>
      </details>
      <JustDone done={last} after={done} />
    </section>
  );
}

import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { decimalOf, inField } from '../../units/typed-number.ts';
import { Field } from '../../ui/field.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { ChangeKept } from './change-kept.tsx';
import { changedMembers } from './changed-members.ts';
import { PriceFields } from './price-fields.tsx';

export type MetalProduct = ItemOf<'/api/v1/metal-products'>;

interface Draft {
  name: string;
  supplier: string;
  packG: number | undefined;
  amount: string;
  per: MassUnit;
  active: boolean;
}

/** Name, supplier, pack and price of a metal put right; its form and size stand, for lots were measured by them. */
export function ChangeMetal({ product, done }: { product: MetalProduct; done: () => void }) {
  const { say, locale } = useWords();
  const { studio } = useSession();
  const { id, version, name, supplier, packG, price, active } = product;
  const before: Draft = {
    name,
    supplier,
    packG,
    amount: price ? inField(price.amount, locale) : '',
    per: price?.per ?? 'g',
    active,
  };
  const { draft, isChanged, change, drop } = useDraft<Draft>(`metal-product:${id}:${version}`, before);
  const set = (part: Partial<Draft>) => change({ ...draft, ...part });
  const sending = useSending(async (confirming) => {
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    const body = changedMembers(sentOf(draft), sentOf(before));
    await bodyOf(api.PATCH('/api/v1/metal-products/{id}', { params, body, headers: confirming }));
    drop();
    done();
  });
  const { error } = sending;
  return (
    <ChangeKept
      title={say('edit.title', { name })}
      sending={sending}
      isChanged={isChanged}
      drop={drop}
      active={draft.active}
      onActive={(kept) => set({ active: kept })}
    >
      <div class="columns">
        <Field
          label={say('metal.name')}
          value={draft.name}
          onValue={(typed) => set({ name: typed })}
          error={error}
          pointer="/name"
          maxLength={120}
          required
        />
        <Field
          label={say('product.supplier')}
          value={draft.supplier}
          onValue={(typed) => set({ supplier: typed })}
          error={error}
          pointer="/supplier"
          maxLength={120}
          required
        />
        <QuantityField
          label={say('product.pack')}
          quantity="mass"
          value={draft.packG}
          onValue={(typed) => set({ packG: typed })}
          error={error}
          pointer="/packG"
        />
        <PriceFields
          label={say('product.price', { currency: studio.currency })}
          amount={draft.amount}
          per={draft.per}
          onValue={set}
          error={error}
          pointer="/price"
        />
      </div>
    </ChangeKept>
  );
}

function sentOf({ name, supplier, packG, amount, per, active }: Draft) {
  return { name, supplier, packG: packG as number, price: { amount: decimalOf(amount), per }, active };
}

import { useSession } from '../../session/session.ts';
import { Field } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import type { SupplyDraft } from './supply-draft.ts';
import { SupplyQuantity } from './supply-quantity.tsx';

const BOUGHT = [
  { name: 'supplier', word: 'product.supplier', maxLength: 120 },
  { name: 'safetySheet', word: 'product.sheet', maxLength: 200 },
] as const;

/** What may be said of a supply at any time. */
export function SupplyFields({
  draft,
  set,
  error,
}: {
  draft: SupplyDraft;
  set: (part: Partial<SupplyDraft>) => void;
  error: Error | undefined;
}) {
  const { say } = useWords();
  const { studio } = useSession();
  const { unit } = draft;
  return (
    <>
      <Field
        label={say('metal.name')}
        value={draft.name}
        onValue={(name) => set({ name })}
        maxLength={120}
        error={error}
        pointer="/name"
        required
      />
      <SupplyQuantity
        label={say('product.pack')}
        hint={say('supply.packHint')}
        unit={unit}
        value={draft.pack}
        onValue={(pack) => set({ pack })}
        error={error}
        pointer="/pack"
      />
      <Field
        label={say('supply.packPrice', { currency: studio.currency })}
        value={draft.packPrice}
        onValue={(packPrice) => set({ packPrice })}
        inputMode="decimal"
        error={error}
        pointer="/price"
      />
      <SupplyQuantity
        label={say('supply.orderPoint')}
        hint={say('supply.orderPointHint')}
        unit={unit}
        value={draft.orderPoint}
        onValue={(orderPoint) => set({ orderPoint })}
        error={error}
        pointer="/orderPoint"
      />
      {BOUGHT.map(({ name, word, maxLength }) => (
        <Field
          key={name}
          label={say(word)}
          value={draft[name]}
          onValue={(value) => set({ [name]: value })}
          maxLength={maxLength}
          error={error}
          pointer={`/${name}`}
        />
      ))}
    </>
  );
}

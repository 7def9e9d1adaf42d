import { useSession } from '../../session/session.ts';
import { Field, TextArea } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import type { SupplierDraft } from './supplier-draft.ts';

interface Props {
  draft: SupplierDraft;
  set: (part: Partial<SupplierDraft>) => void;
  error: Error | undefined;
}

/** Who sells, how long it takes, and for how much they take an order. */
export function SupplierFields({ draft, set, error }: Props) {
  const { say } = useWords();
  const { studio } = useSession();
  return (
    <>
      <div class="columns">
        <Field
          label={say('supplier.name')}
          value={draft.name}
          onValue={(name) => set({ name })}
          error={error}
          pointer="/name"
          maxLength={120}
          required
        />
        <Field
          label={say('orders.leadDays')}
          value={draft.leadDays}
          onValue={(leadDays) => set({ leadDays })}
          inputMode="numeric"
          error={error}
          pointer="/leadWorkingDays"
          required
        />
        <Field
          label={say('orders.minimum', { currency: studio.currency })}
          hint={say('orders.minimumHint')}
          value={draft.minimum}
          onValue={(minimum) => set({ minimum })}
          inputMode="decimal"
          error={error}
          pointer="/minimum/amountMinor"
        />
        <Field
          label={say('supplier.post', { currency: studio.currency })}
          hint={say('orders.minimumHint')}
          value={draft.post}
          onValue={(post) => set({ post })}
          inputMode="decimal"
          error={error}
          pointer="/post/amountMinor"
        />
      </div>
      <TextArea
        label={say('supplier.note')}
        value={draft.note}
        onValue={(note) => set({ note })}
        error={error}
        pointer="/note"
        maxLength={2000}
      />
    </>
  );
}

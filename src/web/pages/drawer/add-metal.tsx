import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { EMPTY_METAL, METAL_FORMS, metalOf, SIZES, type MetalDraft, type MetalForm } from './metal-draft.ts';
import { PriceFields } from './price-fields.tsx';

/** Metal as a supplier's list has it: sheet, wire or tube of a size. */
export function AddMetal({ done }: { done: () => void }) {
  const { say, tell, named } = useWords();
  const { studio } = useSession();
  const metals = useLoaded((signal) => bodyOf(api.GET('/api/v1/metals', { signal })), []);
  const { draft, isChanged, change, drop } = useDraft<MetalDraft>('metal-product', EMPTY_METAL);
  const set = (part: Partial<MetalDraft>) => change({ ...draft, ...part });
  const [added, setAdded] = useState<string>();
  const sending = useSending(async (confirming) => {
    const { name } = await bodyOf(api.POST('/api/v1/metal-products', { body: metalOf(draft), headers: confirming }));
    drop();
    setAdded(name);
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
        <summary>{say('metal.add')}</summary>
        <form onSubmit={submit}>
          <div class="columns">
            <Field
              label={say('metal.name')}
              value={draft.name}
              onValue={(name) => set({ name })}
              error={error}
              pointer="/name"
              maxLength={120}
              required
            />
            <Select
              label={say('metal.metal')}
              value={draft.metal}
              onValue={(metal) => set({ metal })}
              error={error}
              pointer="/metal"
              choices={(metals.value?.items ?? []).map(({ id, name }) => ({ value: id, label: tell(name) }))}
            />
            <Select
              label={say('product.form')}
              value={draft.form}
              onValue={(form) => set({ form: form as MetalForm })}
              choices={METAL_FORMS.map((value) => ({ value, label: named('metal.form', value) }))}
            />
            {SIZES[draft.form].map((size) => (
              <QuantityField
                key={`${draft.form} ${size}`}
                label={say(`metal.size.${size}`)}
                quantity="length"
                thickness={size !== 'widthMm'}
                value={draft.sizes[size]}
                entered={draft.entered[size]}
                onValue={(value, entered) =>
                  set({
                    sizes: { ...draft.sizes, [size]: value },
                    entered: { ...draft.entered, [size]: entered ?? undefined },
                  })
                }
                error={error}
                pointer={`/form/${size}`}
              />
            ))}
            <Field
              label={say('product.supplier')}
              value={draft.supplier}
              onValue={(supplier) => set({ supplier })}
              error={error}
              pointer="/supplier"
              maxLength={120}
              required
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
          <ProblemNotice error={error} sending={sending} />
          <div class="row">
            <Button type="submit" kind="main" busy={sending.busy}>
              {say('product.save')}
            </Button>
            {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
          </div>
        </form>
      </details>
      <div role="status">{added !== undefined && <p>{say('metal.added', { name: added })}</p>}</div>
    </section>
  );
}

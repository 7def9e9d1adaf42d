import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { EMPTY_PRODUCT, productOf, type ProductDraft } from './product-draft.ts';
import { ProductFields } from './product-fields.tsx';

/** A solder the drawer did not know, from its own packet and data sheet. */
export function AddProduct({ done }: { done: () => void }) {
  const { say } = useWords();
  const { draft, isChanged, change, drop } = useDraft<ProductDraft>('solder-product', EMPTY_PRODUCT);
  const set = (part: Partial<ProductDraft>) => change({ ...draft, ...part });
  const sending = useSending(async (confirming) => {
    await bodyOf(api.POST('/api/v1/solder-products', { body: productOf(draft), headers: confirming }));
    drop();
    done();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <details class="card" open={isChanged || undefined}>
      <summary>{say('product.title')}</summary>
      <form onSubmit={submit}>
        <ProductFields draft={draft} set={set} error={error} />
        <ProblemNotice error={error} sending={sending} />
        <div class="row">
          <Button type="submit" kind="main" busy={sending.busy}>
            {say('product.save')}
          </Button>
          {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
        </div>
      </form>
    </details>
  );
}

import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { lineDraftsOf, linesOf, newLineOf, type LineDraft, type Order, type Orderable } from './order-draft.ts';
import { PriceFields } from './price-fields.tsx';

/** The lines of an order that is not sent yet: more, less, at another price, or not at all. */
export function EditLines({ order, show }: { order: Order; show: (order: Order) => void }) {
  const { say, locale } = useWords();
  const { id, version } = order;
  const products = useLoaded(orderables, []);
  const { draft, isChanged, change, drop } = useDraft<LineDraft[]>(`order:${id}:${version}`, lineDraftsOf(order, locale));
  const sending = useSending(async (confirming) => {
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    const body = { lines: linesOf(draft) };
    const after = await bodyOf(api.PATCH('/api/v1/supplier-orders/{id}', { params, body, headers: confirming }));
    drop();
    show(after);
  });
  const set = (at: number, part: Partial<LineDraft>) =>
    change(draft.map((line, index) => (index === at ? { ...line, ...part } : line)));
  return (
    <details class="card" open={isChanged || undefined}>
      <summary>{say('orders.edit')}</summary>
      <Waiting of={products}>
        {(known) => (
          <form
            onSubmit={(event) => {
              event.preventDefault();
              void sending.send();
            }}
          >
            {draft.map((line, at) => (
              <LineFields
                key={`${line.product} ${at}`}
                line={line}
                product={known.find(({ key }) => key === line.product)}
                at={at}
                set={(part) => set(at, part)}
                remove={() => change(draft.filter((_, index) => index !== at))}
                error={sending.error}
              />
            ))}
            <AddLine products={known} add={(product) => change([...draft, newLineOf(product, locale)])} />
            <ProblemNotice error={sending.error} sending={sending} />
            <div class="row">
              <Button type="submit" kind="main" busy={sending.busy} disabled={!isChanged}>
                {say('shell.save')}
              </Button>
              {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
            </div>
          </form>
        )}
      </Waiting>
    </details>
  );
}

interface LineProps {
  line: LineDraft;
  product: Orderable | undefined;
  at: number;
  set: (part: Partial<LineDraft>) => void;
  remove: () => void;
  error: Error | undefined;
}

function LineFields({ line, product, at, set, remove, error }: LineProps) {
  const words = useWords();
  const { say } = words;
  const { units, studio } = useSession();
  const name = product?.name ?? '';
  return (
    <fieldset class="line">
      <legend>{name}</legend>
      <div class="columns">
        <QuantityField
          label={say('orders.ordered')}
          quantity="mass"
          {...(product && { hint: say('orders.inPacks', { pack: showQuantity(words, units, 'mass', product.packG) }) })}
          value={line.quantityG}
          onValue={(quantityG) => set({ quantityG })}
          error={error}
          pointer={`/lines/${at}/quantityG`}
        />
        <PriceFields
          label={say('product.price', { currency: studio.currency })}
          amount={line.amount}
          per={line.per}
          onValue={set}
          error={error}
          pointer={`/lines/${at}/price`}
        />
      </div>
      <Button kind="quiet" aria-label={say('orders.dropLineOf', { name })} onClick={remove}>
        {say('orders.dropLine')}
      </Button>
    </fieldset>
  );
}

function AddLine({ products, add }: { products: readonly Orderable[]; add: (product: Orderable) => void }) {
  const { say } = useWords();
  const [chosen, setChosen] = useState('');
  const product = products.find(({ key }) => key === chosen) ?? products[0];
  if (!product) return null;
  return (
    <div class="row">
      <Select
        label={say('orders.addWhat')}
        value={product.key}
        onValue={setChosen}
        choices={products.map(({ key, name }) => ({ value: key, label: name }))}
      />
      <Button onClick={() => add(product)}>{say('orders.addLine')}</Button>
    </div>
  );
}

async function orderables(signal: AbortSignal): Promise<Orderable[]> {
  const params = { query: { active: 'true' as const, limit: 200 } };
  const [solders, metals] = await Promise.all([
    bodyOf(api.GET('/api/v1/solder-products', { params, signal })),
    bodyOf(api.GET('/api/v1/metal-products', { params, signal })),
  ]);
  return [
    ...solders.items.map((one) => ({ ...one, key: `solder ${one.id}` })),
    ...metals.items.map((one) => ({ ...one, key: `metal ${one.id}` })),
  ];
}

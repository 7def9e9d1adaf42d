import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import type { ReorderList, SupplierToOrder } from './drawer-replies.ts';
import { NoteSupplier } from './note-supplier.tsx';
import { ReorderWhy } from './reorder-why.tsx';
import { saySupply } from './say-supply.ts';

/** What is at its order point, by supplier, each with the order that is ready to be made of it. */
export function ReorderList() {
  const { say } = useWords();
  const loaded = useLoaded(async (signal) => (await bodyOf(api.GET('/api/v1/reorder-list', { signal }))) as ReorderList, []);
  return (
    <section class="card" aria-labelledby="reorder">
      <h2 id="reorder">{say('orders.list')}</h2>
      <Waiting of={loaded}>
        {({ suppliers, supplies }) =>
          suppliers.length + supplies.length === 0 ? (
            <p>{say('orders.nothing')}</p>
          ) : (
            <>
              {suppliers.map((supplier) => (
                <FromSupplier key={supplier.supplier} supplier={supplier} reload={loaded.reload} />
              ))}
              {supplies.length > 0 && <SuppliesToOrder supplies={supplies} />}
              <a href="/api/v1/documents/reorder-list?format=pdf" target="_blank" rel="noopener">
                {say('orders.reorderPaper')}
              </a>
            </>
          )
        }
      </Waiting>
    </section>
  );
}

/** Flux, pickle salt, gas, findings and stones: told, and ordered by hand. */
function SuppliesToOrder({ supplies }: { supplies: ReorderList['supplies'] }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  return (
    <>
      <h3>{say('orders.supplies')}</h3>
      <ul class="plain-list">
        {supplies.map(({ supplyId, name, supplier, unit, onHand, order }) => {
          const quantity = (value: number) => saySupply(words, units, unit, value);
          return (
            <li key={supplyId} class="line">
              <strong>
                <a href={`/drawer/supplies/${supplyId}`}>{say('orders.line', { quantity: quantity(order), name })}</a>
              </strong>{' '}
              <span class="soft">
                {[say('orders.suppliesLeft', { quantity: quantity(onHand) }), supplier].filter(Boolean).join(', ')}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}

function FromSupplier({ supplier, reload }: { supplier: SupplierToOrder; reload: () => void }) {
  const words = useWords();
  const { say, money } = words;
  const { units } = useSession();
  const { lines, total, minimum, minimumMet, order, supplierId } = supplier;
  return (
    <>
      <h3>{supplier.supplier}</h3>
      <ul class="plain-list">
        {lines.map((line) => {
          const quantity = showQuantity(words, units, 'mass', line.orderG);
          return (
            <li key={line.productId} class="line">
              <strong>{say('orders.line', { quantity, name: line.name })}</strong>{' '}
              <span class="soft">
                {say('orders.packs', { packs: line.packs, pack: showQuantity(words, units, 'mass', line.packG) })},{' '}
                {money(line.cost.amountMinor, line.cost.currency)}
                {line.because === 'companion' && `, ${say('orders.companion')}`}
              </span>
              <ReorderWhy line={line} />
            </li>
          );
        })}
      </ul>
      <p>
        {minimum.amountMinor > 0
          ? say('orders.total', {
              total: money(total.amountMinor, total.currency),
              minimum: money(minimum.amountMinor, minimum.currency),
            })
          : say('orders.totalPlain', { total: money(total.amountMinor, total.currency) })}{' '}
        {!minimumMet && <span class="late">{say('orders.underMinimum')}</span>}
      </p>
      {order !== null && <MakeOrder order={order} />}
      {supplierId === null && <NoteSupplier name={supplier.supplier} leadWeeks={lines[0]?.leadWeeks} done={reload} />}
    </>
  );
}

function MakeOrder({ order }: { order: BodyOf<'/api/v1/supplier-orders', 'post'> }) {
  const { say } = useWords();
  const { route } = useLocation();
  const [key] = useState(idempotencyKey);
  const sending = useSending(async (confirming) => {
    const { id } = await bodyOf(
      api.POST('/api/v1/supplier-orders', { body: order, headers: { 'idempotency-key': key, ...confirming } }),
    );
    route(`/drawer/orders/${id}`);
  });
  return (
    <>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button kind="main" busy={sending.busy} onClick={() => void sending.send()}>
        {say('orders.make')}
      </Button>
    </>
  );
}

import type { ReplyOf } from '../../api/reply.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Table, type Column } from '../../ui/table.tsx';
import { useWords } from '../../words/words.ts';
import { sayPrice } from './price.ts';

type Order = ReplyOf<'/api/v1/supplier-orders/{id}'>;
type Line = Order['lines'][number];

/** What an order asks for, line by line; prices where they were told. */
export function OrderLines({ order: { lines, total } }: { order: Order }) {
  const words = useWords();
  const { say, money } = words;
  const { units, studio } = useSession();
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams);
  const amounts: Column<Line>[] = [
    { head: say('orders.what'), of: ({ name }) => name },
    { head: say('orders.ordered'), of: ({ orderedG }) => mass(orderedG), figure: true },
    { head: say('orders.received'), of: ({ receivedG }) => mass(receivedG), figure: true },
    {
      head: say('orders.open'),
      of: ({ closedShort, openG }) => (closedShort ? say('orders.closedShort') : mass(openG)),
      figure: true,
    },
  ];
  const prices: Column<Line>[] = [
    { head: say('orders.price'), of: ({ price }) => price && sayPrice(words, price, studio.currency), figure: true },
    { head: say('orders.cost'), of: ({ cost }) => cost && money(cost.amountMinor, cost.currency), figure: true },
  ];
  return (
    <section class="card">
      <Table
        label={say('orders.what')}
        columns={total ? [...amounts, ...prices] : amounts}
        rows={lines}
        keyOf={({ id }) => id}
        named
      />
    </section>
  );
}

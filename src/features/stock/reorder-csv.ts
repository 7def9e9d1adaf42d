import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import type { ReorderList } from './reorder-list.service.ts';

type Supplier = ReorderList['suppliers'][number];
type Line = Supplier['lines'][number];
type Supply = ReorderList['supplies'][number];
type Row = { supplier: string | null } & (
  { of: 'solder' | 'metal'; line: Line; from: Supplier } | { of: Supply['kind']; supply: Supply }
);

/** A line for each product, then one for each supply; what goes by the piece has columns of its own. */
export function reorderCsv({ currency, suppliers, supplies }: ReorderList): string {
  const rows: Row[] = [
    ...suppliers.flatMap((from) => from.lines.map((line) => ({ of: line.of, supplier: from.supplier, line, from }))),
    ...supplies.map((supply) => ({ of: supply.kind, supplier: supply.supplier, supply })),
  ];
  type Value = string | number | null;
  const column = (
    header: string,
    ofLine: (line: Line, from: Supplier) => Value,
    ofSupply?: (supply: Supply) => Value,
  ): Column<Row> => ({
    header,
    value: (row) => ('line' in row ? ofLine(row.line, row.from) : (ofSupply?.(row.supply) ?? null)),
  });
  const pieces = (header: string, value: (supply: Supply) => number) =>
    column(
      header,
      () => null,
      (supply) => (supply.unit === 'piece' ? value(supply) : null),
    );
  return csvOf(
    [
      { header: 'supplier', value: ({ supplier }) => supplier },
      { header: 'of', value: ({ of }) => of },
      column('product', ({ code }) => code),
      column(
        'name',
        ({ name }) => name,
        ({ name }) => name,
      ),
      column('form', ({ form }) => form),
      column(
        'on_hand_g',
        ({ onHandG }) => onHandG,
        inG(({ onHand }) => onHand),
      ),
      column('held_g', ({ heldG }) => heldG),
      column('on_order_g', ({ onOrderG }) => onOrderG),
      column(
        'order_point_g',
        ({ orderPointG }) => orderPointG,
        inG(({ orderPoint }) => orderPoint),
      ),
      column(
        'order_now',
        ({ orderNow }) => yesNo(orderNow),
        () => yesNo(true),
      ),
      column(
        'because',
        ({ because }) => because,
        () => 'at_its_point',
      ),
      column(
        'order_g',
        ({ orderG }) => orderG,
        inG(({ order }) => order),
      ),
      column(
        'packs',
        ({ packs }) => packs,
        ({ packs }) => packs,
      ),
      column(`price_${currency}_per_g`, ({ price }) => price.amount),
      column(
        `cost_${currency}`,
        ({ cost }) => inMajor(cost),
        ({ cost }) => cost && inMajor(cost),
      ),
      column(`order_total_${currency}`, (_line, { total }) => inMajor(total)),
      column('minimum_met', (_line, { minimumMet }) => yesNo(minimumMet)),
      column('lead_weeks', ({ leadWeeks }) => leadWeeks),
      column('why', ({ working }) => working.join(' ')),
      pieces('on_hand_pieces', ({ onHand }) => onHand),
      pieces('order_point_pieces', ({ orderPoint }) => orderPoint),
      pieces('order_pieces', ({ order }) => order),
    ],
    rows,
  );
}

const inG = (value: (supply: Supply) => number) => (supply: Supply) => (supply.unit === 'g' ? value(supply) : null);

const yesNo = (is: boolean) => (is ? 'yes' : 'no');

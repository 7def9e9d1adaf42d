import { Decimal, sum } from '../../../shared/decimal.ts';
import { costOf } from '../../../shared/stock/issue-costs.ts';
import type { CostLedger } from '../../../shared/stock/cost-ledger.ts';
import type { Db } from '../../platform/db/client.ts';
import { inGrams, toG } from './grams.ts';
import type { Finding } from './ledger-audit.ts';
import { allMetalMovements, metalLotsOldestFirst } from './metal-lots.store.ts';
import { wholeCosts, type LineCosts } from './product-cost.ts';
import { lotsOldestFirst } from './solder-lots.store.ts';
import { allMovements } from './stock-movements.store.ts';

interface Line {
  kind: string;
  lotId: string | null;
  onHandTenthMg: number;
  reversesId: string | null;
  id: string;
}

/** What was paid for every delivery, less what every line cost, is what is left is worth; and so are the layers it is valued at. */
export function auditCosts(db: Db): Finding[] {
  const solder = lotsOldestFirst(db).map(({ id, productId, unitCostPerG }) => ({ id, productId, unitCostPerG }));
  // What a client left is worth nothing to us.
  const metal = metalLotsOldestFirst(db).flatMap(({ lot: { id, productId, unitCostPerG, commissionId } }) =>
    commissionId === null ? [{ id, productId, unitCostPerG }] : [],
  );
  return [
    ...wrongCosts('product', { lots: solder, lines: allMovements(db), costs: wholeCosts(db, 'solder') }),
    ...wrongCosts('metal_product', { lots: metal, lines: allMetalMovements(db), costs: wholeCosts(db, 'metal') }),
  ];
}

function wrongCosts(
  what: 'product' | 'metal_product',
  {
    lots,
    lines,
    costs,
  }: {
    lots: readonly { id: string; productId: string; unitCostPerG: string }[];
    lines: readonly Line[];
    costs: LineCosts;
  },
): Finding[] {
  const lotById = new Map(lots.map((lot) => [lot.id, lot]));
  const receipts = new Set(lines.filter(({ kind }) => kind === 'receive').map(({ id }) => id));
  return [...costs.byProduct].flatMap(([productId, ledger]): Finding[] => {
    const own = lines.filter(({ lotId }) => lotId !== null && lotById.get(lotId)?.productId === productId);
    const paid = sum(
      own
        .filter(({ kind, reversesId }) => kind === 'receive' || receipts.has(reversesId ?? ''))
        .map(({ lotId, onHandTenthMg }) => costOf(onHandTenthMg, lotById.get(lotId!)!.unitCostPerG)),
    );
    const spent = sum(own.map(({ id }) => new Decimal(ledger.costs.get(id) ?? 0)));
    const onHand = own.reduce((total, { onHandTenthMg }) => total + onHandTenthMg, 0);
    const inLayers = ledger.layers.reduce((total, { tenthMg }) => total + tenthMg, 0);
    return [
      ...(paid.minus(spent).eq(ledger.value)
        ? []
        : [`Paid ${paid.toFixed(6)}, issues cost ${spent.toFixed(6)}: what is left is not worth ${ledger.value}`]),
      ...(onHand === ledger.tenthMg && Math.max(0, onHand) === inLayers
        ? []
        : [`${inGrams(onHand)} are there and ${inGrams(inLayers)} are valued`]),
      ...(layersAreWorth(ledger) ? [] : [`Its layers are not worth ${ledger.value}`]),
    ].map((says) => ({ what, id: productId, says }));
  });
}

/** A layer at the average carries six places of it: a gram of each is off by no more than half of the last. */
function layersAreWorth({ layers, value }: CostLedger): boolean {
  const worth = sum(layers.map(({ tenthMg, costPerG }) => costOf(tenthMg, costPerG)));
  const grams = toG(layers.reduce((total, { tenthMg }) => total + tenthMg, 0));
  return worth
    .minus(value)
    .abs()
    .lte(0.000_001 * (1 + grams));
}

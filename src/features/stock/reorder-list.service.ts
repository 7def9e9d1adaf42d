import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { reorderPoint } from '../../../shared/stock/reorder-point.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money } from '../../platform/http/money.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { toG } from './grams.ts';
import type { ReorderReply } from './reorder-list.schema.ts';
import { shownPrice } from './stock-fields.ts';
import { stockLevels, type ProductStock } from './stock-levels.ts';
import { allMovements, type MovementRow } from './stock-movements.store.ts';
import { worth } from './stock-value.ts';
import { usesOf, weeklyUse } from './weekly-use.ts';

export type ReorderListService = ReturnType<typeof createReorderListService>;

type ReorderList = z.infer<typeof ReorderReply>;
type Line = ReorderList['suppliers'][number]['lines'][number];

const HISTORY_WEEKS = 52;
/** Paste does not keep: half a year's use is the most to buy. */
const PASTE_WEEKS = 26;

export function createReorderListService({ db, clock }: Platform) {
  return {
    /** What to order, by supplier; of solders a plan may choose. */
    show({ all }: { all: boolean }): ReorderList {
      const settings = getSettings(db);
      const today = dateInZone(clock.now(), settings.timeZone);
      const lines = stockLevels(db)
        .filter(({ product }) => product.active && product.cadmiumStanding === 'no' && product.leadOrTinStanding === 'no')
        .map((level) => ({ supplier: level.product.supplier, line: lineOf(db, level, settings, today) }))
        .filter(({ line }) => all || line.orderNow);
      const bySupplier = [...groupBy(lines, ({ supplier }) => supplier)].toSorted(([a], [b]) => a.localeCompare(b));
      return {
        asOf: clock.now().toISOString(),
        currency: settings.currency,
        suppliers: bySupplier.map(([supplier, own]) => ({
          supplier,
          lines: own.map(({ line }) => line),
          total: money(
            own.reduce((total, { line }) => total + (line.orderNow ? line.cost.amountMinor : 0), 0),
            settings.currency,
          ),
        })),
      };
    },
  };
}

function lineOf(db: Db, { product, lots, usableTenthMg, heldTenthMg }: ProductStock, settings: Settings, today: string): Line {
  const { reorder, currency, timeZone } = settings;
  const movements = allMovements(db, { productId: product.id });
  const uses = usesOf(movements).map(({ at, onHandTenthMg }) => ({
    day: dateInZone(new Date(at), timeZone),
    tenthMg: -onHandTenthMg,
  }));
  // Stock begins with its first delivery; a use that was booked for an earlier day begins it too.
  const since = [
    ...lots.map(({ lot }) => lot.receivedOn),
    ...movements.map(({ at }) => dateInZone(new Date(at), timeZone)),
  ].toSorted()[0];
  const weeklyUseG = since === undefined ? [] : weeklyUse(uses, { since, today, atMost: HISTORY_WEEKS }).map(toG);
  const largestPieceG = toG(largestPiece(movements));
  const onHandG = toG(usableTenthMg);
  const heldG = toG(heldTenthMg);
  const answer = reorderPoint({
    weeklyUseG,
    largestPieceG,
    leadWeeks: product.leadWeeks,
    reviewWeeks: reorder.reviewWeeks,
    onHandG,
    onOrderG: 0,
    heldG,
    packG: product.packG,
    priceMinorPerG: new Decimal(product.pricePerG).times(10 ** minorDigits(currency)).toNumber(),
    orderCostMinor: reorder.orderCostMinor,
    holdingFraction: reorder.holdingFraction,
    horizonWeeks: product.form === 'paste' ? Math.min(PASTE_WEEKS, reorder.horizonWeeks) : reorder.horizonWeeks,
  });
  return {
    productId: product.id,
    code: product.code,
    name: product.name,
    form: product.form,
    onHandG,
    heldG,
    onOrderG: 0,
    largestPieceG,
    weeklyUseG,
    ...answer,
    packG: product.packG,
    packs: Math.round(answer.orderG / product.packG),
    price: shownPrice(product.pricePerG),
    cost: worth(currency, [{ tenthMg: Math.round(answer.orderG * 10_000), costPerG: product.pricePerG }]),
    leadWeeks: product.leadWeeks,
  };
}

/** The most that one piece has taken and still holds, together: what must not run out in its middle. */
function largestPiece(movements: readonly MovementRow[]): number {
  const ofPieces = movements.filter(({ pieceId }) => pieceId !== null);
  const byPiece = groupBy(ofPieces, ({ pieceId }) => pieceId);
  const taken = [...byPiece.values()].map(
    (own) =>
      usesOf(own).reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0) +
      own.reduce((total, { heldTenthMg }) => total + heldTenthMg, 0),
  );
  return Math.max(0, ...taken);
}

export function reorderCsv({ currency, suppliers }: ReorderList): string {
  const lines = suppliers.flatMap(({ supplier, lines: own }) => own.map((line) => ({ supplier, line })));
  const columns: Column<(typeof lines)[number]>[] = [
    { header: 'supplier', value: ({ supplier }) => supplier },
    { header: 'product', value: ({ line }) => line.code },
    { header: 'name', value: ({ line }) => line.name },
    { header: 'form', value: ({ line }) => line.form },
    { header: 'on_hand_g', value: ({ line }) => line.onHandG },
    { header: 'held_g', value: ({ line }) => line.heldG },
    { header: 'on_order_g', value: ({ line }) => line.onOrderG },
    { header: 'order_point_g', value: ({ line }) => line.orderPointG },
    { header: 'order_now', value: ({ line }) => (line.orderNow ? 'yes' : 'no') },
    { header: 'order_g', value: ({ line }) => line.orderG },
    { header: 'packs', value: ({ line }) => line.packs },
    { header: `price_${currency}_per_g`, value: ({ line }) => line.price.amount },
    { header: `cost_${currency}`, value: ({ line }) => inMajor(line.cost) },
    { header: 'lead_weeks', value: ({ line }) => line.leadWeeks },
    { header: 'why', value: ({ line }) => line.working.join(' ') },
  ];
  return csvOf(columns, lines);
}

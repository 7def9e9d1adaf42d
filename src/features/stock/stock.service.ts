import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from './grams.ts';
import { auditLedger } from './ledger-audit.ts';
import { lotsOldestFirst } from './solder-lots.store.ts';
import { allProducts } from './solder-products.store.ts';
import { seesPrices, shownPrice } from './stock-fields.ts';
import { stockLevels, type ProductStock } from './stock-levels.ts';
import { allMovements, heldByProduct, onHandByLot } from './stock-movements.store.ts';
import type { AuditReply, StockReply } from './stock.schema.ts';
import { inMoney, worth } from './stock-value.ts';

export type StockService = ReturnType<typeof createStockService>;

type Stock = z.infer<typeof StockReply>;

export function createStockService({ db, clock }: Platform) {
  return {
    /** What is in the drawer. Products that are no longer bought are shown while there is any of them. */
    show(actor: Actor): Stock {
      const { currency, timeZone } = getSettings(db);
      const levels = stockLevels(db, dateInZone(clock.now(), timeZone)).filter(
        ({ product, onHandTenthMg, heldTenthMg }) => product.active || onHandTenthMg !== 0 || heldTenthMg !== 0,
      );
      const priced = seesPrices(actor);
      return {
        asOf: clock.now().toISOString(),
        currency,
        items: levels.map((level) => showProduct(level, currency, priced)),
        ...(priced
          ? {
              totalValue: inMoney(currency, sum(levels.map(({ value }) => new Decimal(value))).toFixed()),
            }
          : {}),
      };
    },

    audit(): z.infer<typeof AuditReply> {
      const movements = allMovements(db);
      const lots = lotsOldestFirst(db);
      const findings = auditLedger({ movements, lots, shownOnHand: onHandByLot(db), shownHeld: heldByProduct(db) });
      return {
        asOf: clock.now().toISOString(),
        ok: findings.length === 0,
        movements: movements.length,
        lots: lots.length,
        products: allProducts(db).length,
        findings,
      };
    },
  };
}

function showProduct(
  { product, lots, onHandTenthMg, usableTenthMg, heldTenthMg, layers, value }: ProductStock,
  currency: string,
  priced: boolean,
) {
  return {
    productId: product.id,
    code: product.code,
    name: product.name,
    gradeWord: product.gradeWord,
    form: product.form,
    onHandG: toG(onHandTenthMg),
    usableG: toG(usableTenthMg),
    heldG: toG(heldTenthMg),
    freeG: toG(usableTenthMg - heldTenthMg),
    ...(priced
      ? {
          value: inMoney(currency, value),
          valuedAt: layers.map(({ lot, tenthMg, costPerG }) => ({
            lot,
            grams: toG(tenthMg),
            unitCost: shownPrice(costPerG),
          })),
        }
      : {}),
    lots: lots.map(({ lot, onHandTenthMg: inLot }) => ({
      lotId: lot.id,
      number: lot.number,
      receivedOn: lot.receivedOn,
      state: lot.state,
      stateReason: lot.stateReason,
      markOnMetal: lot.markOnMetal,
      useBy: lot.useBy,
      cadmiumStanding: lot.cadmiumStanding,
      onHandG: toG(inLot),
      ...(priced
        ? {
            unitCost: shownPrice(lot.unitCostPerG),
            valueAtOwnCost: worth(currency, [{ tenthMg: inLot, costPerG: lot.unitCostPerG }]),
          }
        : {}),
    })),
  };
}

/** A line for each product, and under it one for each of its lots. */
export function stockCsv({ currency, items }: Stock): string {
  const lines = items.flatMap((item) => [{ item, lot: null }, ...item.lots.map((lot) => ({ item, lot }))]);
  const columns: Column<(typeof lines)[number]>[] = [
    { header: 'product', value: ({ item }) => item.code },
    { header: 'name', value: ({ item }) => item.name },
    { header: 'form', value: ({ item }) => item.form },
    { header: 'lot', value: ({ lot }) => lot?.number },
    { header: 'received_on', value: ({ lot }) => lot?.receivedOn },
    { header: 'state', value: ({ lot }) => lot?.state },
    { header: 'mark', value: ({ lot }) => lot?.markOnMetal },
    { header: 'use_by', value: ({ lot }) => lot?.useBy },
    { header: 'cadmium', value: ({ lot }) => lot?.cadmiumStanding },
    { header: 'on_hand_g', value: ({ item, lot }) => (lot ?? item).onHandG },
    { header: 'usable_g', value: ({ item, lot }) => (lot ? null : item.usableG) },
    { header: 'held_g', value: ({ item, lot }) => (lot ? null : item.heldG) },
    { header: 'free_g', value: ({ item, lot }) => (lot ? null : item.freeG) },
    { header: `unit_cost_${currency}_per_g`, value: ({ lot }) => lot?.unitCost?.amount },
    { header: `value_oldest_first_${currency}`, value: ({ item, lot }) => (lot ? null : inMajor(item.value)) },
    { header: `value_at_own_cost_${currency}`, value: ({ lot }) => inMajor(lot?.valueAtOwnCost) },
  ];
  return csvOf(columns, lines);
}

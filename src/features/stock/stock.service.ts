import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { auditSupplies } from '../supplies/index.ts';
import { toG } from './grams.ts';
import { auditCosts } from './cost-audit.ts';
import { auditLedger } from './ledger-audit.ts';
import { auditMetal, metalBook } from './metal-audit.ts';
import { heldOfNoProduct, metalLevels, type MetalStock } from './metal-levels.ts';
import { allMetalProducts } from './metal-products.store.ts';
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
      const metals = metalLevels(db).filter(
        ({ product, onHandTenthMg, heldTenthMg, clientLots }) =>
          product.active || onHandTenthMg !== 0 || heldTenthMg !== 0 || clientLots.length > 0,
      );
      return {
        asOf: clock.now().toISOString(),
        currency,
        items: levels.map((level) => showProduct(level, currency, priced)),
        metals: metals.map((level) => showMetal(level, currency, priced)),
        metalHeldOfNoSize: heldOfNoProduct(db).map(({ metal, tenthMg }) => ({ metal, heldG: toG(tenthMg) })),
        ...(priced
          ? {
              totalValue: inMoney(currency, sum([...levels, ...metals].map(({ value }) => new Decimal(value))).toFixed()),
            }
          : {}),
      };
    },

    audit(): z.infer<typeof AuditReply> {
      const movements = allMovements(db);
      const lots = lotsOldestFirst(db);
      const metal = metalBook(db);
      const { findings: wrongSupplies, ...supplies } = auditSupplies(db);
      const findings = [
        ...auditLedger({ movements, lots, shownOnHand: onHandByLot(db), shownHeld: heldByProduct(db) }),
        ...auditMetal(metal),
        ...auditCosts(db),
        ...wrongSupplies,
      ];
      return {
        asOf: clock.now().toISOString(),
        ok: findings.length === 0,
        movements: movements.length,
        lots: lots.length,
        products: allProducts(db).length,
        metal: {
          movements: metal.movements.length,
          holds: metal.holds.length,
          lots: metal.lots.length,
          products: allMetalProducts(db).length,
        },
        supplies,
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

function showMetal(
  { product, onHandTenthMg, heldTenthMg, clientLots, value }: MetalStock,
  currency: string,
  priced: boolean,
): Stock['metals'][number] {
  return {
    productId: product.id,
    name: product.name,
    metal: product.metal,
    form: product.form.kind,
    onHandG: toG(onHandTenthMg),
    heldG: toG(heldTenthMg),
    freeG: toG(onHandTenthMg - heldTenthMg),
    ...(priced ? { value: inMoney(currency, value) } : {}),
    clientG: toG(clientLots.reduce((total, one) => total + one.onHandTenthMg, 0)),
  };
}

/** A line for each product, and under it one for each of its lots. */
export function stockCsv({ currency, items, metals }: Stock): string {
  const solder = items.flatMap((item) => [
    {
      product: item.code,
      name: item.name,
      form: item.form,
      onHandG: item.onHandG,
      usableG: item.usableG,
      heldG: item.heldG,
      freeG: item.freeG,
      value: inMajor(item.value),
    },
    ...item.lots.map((lot) => ({ product: item.code, name: item.name, form: item.form, lot, onHandG: lot.onHandG })),
  ]);
  const metal = metals.map(({ metal: product, value, clientG: _clientG, ...rest }) => ({
    ...rest,
    product,
    value: inMajor(value),
  }));
  interface Line {
    product: string;
    name: string;
    form: string;
    onHandG: number;
    lot?: Stock['items'][number]['lots'][number];
    usableG?: number;
    heldG?: number;
    freeG?: number;
    value?: string | null;
  }
  const columns: Column<Line>[] = [
    { header: 'product', value: ({ product }) => product },
    { header: 'name', value: ({ name }) => name },
    { header: 'form', value: ({ form }) => form },
    { header: 'lot', value: ({ lot }) => lot?.number },
    { header: 'received_on', value: ({ lot }) => lot?.receivedOn },
    { header: 'state', value: ({ lot }) => lot?.state },
    { header: 'mark', value: ({ lot }) => lot?.markOnMetal },
    { header: 'use_by', value: ({ lot }) => lot?.useBy },
    { header: 'cadmium', value: ({ lot }) => lot?.cadmiumStanding },
    { header: 'on_hand_g', value: ({ onHandG }) => onHandG },
    { header: 'usable_g', value: ({ usableG }) => usableG },
    { header: 'held_g', value: ({ heldG }) => heldG },
    { header: 'free_g', value: ({ freeG }) => freeG },
    { header: `unit_cost_${currency}_per_g`, value: ({ lot }) => lot?.unitCost?.amount },
    { header: `value_${currency}`, value: ({ value }) => value },
    { header: `value_at_own_cost_${currency}`, value: ({ lot }) => inMajor(lot?.valueAtOwnCost) },
  ];
  return csvOf<Line>(columns, [...solder, ...metal]);
}

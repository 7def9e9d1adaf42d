import type { z } from 'zod';
import { Decimal, sum } from '../../../shared/decimal.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { getSettings } from '../settings/index.ts';
import { supplyStock } from '../supplies/index.ts';
import { inMoney, metalLevels, stockLevels, toG, worth } from '../stock/index.ts';
import type { Period } from './reports.schema.ts';
import type { StockWorthReply } from './stock-reports.schema.ts';

type Report = z.infer<typeof StockWorthReply>;
type Row = Report['rows'][number];

/** What the drawer is worth, by product and lot, in the way the studio costs its stock; client metal apart. */
export function stockWorth(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { currency, timeZone, stockCost } = getSettings(db);
  const solder = stockLevels(db, dateInZone(now, timeZone)).filter(
    ({ onHandTenthMg, heldTenthMg }) => onHandTenthMg !== 0 || heldTenthMg !== 0,
  );
  const metal = metalLevels(db);
  const lotOf = ({
    lot,
    onHandTenthMg,
  }: {
    lot: { id: string; number: string; unitCostPerG: string };
    onHandTenthMg: number;
  }) => ({
    lotId: lot.id,
    number: lot.number,
    onHandG: toG(onHandTenthMg),
    costPerG: lot.unitCostPerG,
    valueAtOwnCost: worth(currency, [{ tenthMg: onHandTenthMg, costPerG: lot.unitCostPerG }]),
  });
  const ours = [...solder, ...metal];
  const supplies = supplyStock(db).filter(({ onHand }) => onHand !== 0);
  return {
    report: 'stock-worth',
    asOf: now.toISOString(),
    ...period,
    about: [
      'As of now, whatever period is asked for',
      stockCost === 'average'
        ? 'Value: grams at the running average of what was paid'
        : 'Value: oldest used first, so what is there is of the newest deliveries, whichever lot it lies in',
      'Flux, pickle salt, gas, findings and stones stand apart, with a total of their own, at the running average in either way',
      'Values are added up to six places and rounded once; a lot at its own cost may differ from the method',
    ],
    currency,
    method: stockCost,
    total: inMoney(currency, sum(ours.map(({ value }) => new Decimal(value))).toFixed()),
    rows: ours
      .filter(({ onHandTenthMg, heldTenthMg }) => onHandTenthMg !== 0 || heldTenthMg !== 0)
      .map((level): Row => ({
        of: 'code' in level.product ? 'solder' : 'metal',
        productId: level.product.id,
        product: level.product.name,
        onHandG: toG(level.onHandTenthMg),
        heldG: toG(level.heldTenthMg),
        value: inMoney(currency, level.value),
        lots: level.lots.map(lotOf),
      })),
    supplies: supplies.map(({ supply: { id, name, unit }, onHand, level }) => ({
      supplyId: id,
      name,
      unit,
      onHand,
      value: inMoney(currency, level.value.toFixed()),
    })),
    suppliesTotal: inMoney(currency, sum(supplies.map(({ level }) => level.value)).toFixed()),
    clientMetal: metal.flatMap(({ product, clientLots }) =>
      clientLots.map(({ lot, onHandTenthMg }) => ({
        lotId: lot.id,
        number: lot.number,
        product: product.name,
        commissionId: lot.commissionId!,
        onHandG: toG(onHandTenthMg),
      })),
    ),
  };
}

/** A line for each product, under it one for each of its lots; then the supplies; client metal at the end, without a value. */
export function stockWorthCsv({ currency, rows, supplies, clientMetal }: Report): string {
  const lines = [
    ...rows.flatMap((row) => [
      {
        of: row.of,
        product: row.product,
        lot: '',
        grams: row.onHandG,
        held: row.heldG,
        cost: '',
        value: inMajor(row.value),
      },
      ...row.lots.map((lot) => ({
        of: row.of,
        product: row.product,
        lot: lot.number,
        grams: lot.onHandG,
        held: null,
        cost: lot.costPerG,
        value: inMajor(lot.valueAtOwnCost),
      })),
    ]),
    ...supplies.map(({ name, unit, onHand, value }) => ({
      of: 'supply',
      product: name,
      lot: '',
      grams: unit === 'g' ? onHand : null,
      pieces: unit === 'piece' ? onHand : null,
      held: null,
      cost: '',
      value: inMajor(value),
    })),
    ...clientMetal.map(({ product, number, onHandG }) => ({
      of: 'client metal',
      product,
      lot: number,
      grams: onHandG,
      held: null,
      cost: '',
      value: null,
    })),
  ];
  const columns: Column<(typeof lines)[number]>[] = [
    { header: 'of', value: ({ of }) => of },
    { header: 'product', value: ({ product }) => product },
    { header: 'lot', value: ({ lot }) => lot },
    { header: 'on_hand_g', value: ({ grams }) => grams },
    { header: 'held_g', value: ({ held }) => held },
    { header: `cost_${currency}_per_g`, value: ({ cost }) => cost },
    { header: `value_${currency}`, value: ({ value }) => value },
    { header: 'on_hand_pieces', value: (line) => ('pieces' in line ? line.pieces : null) },
  ];
  return csvOf(columns, lines);
}

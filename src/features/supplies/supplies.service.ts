import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money, toMinor } from '../../platform/http/money.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import type { NewSupply, SupplyChange, SupplyQuery } from './supplies.schema.ts';
import * as store from './supplies.store.ts';
import { levelOf, packsToOrder, quantityOf, unitsOf } from './supply-level.ts';
import { sumsNow } from './supply-sums.ts';

export type SupplyService = ReturnType<typeof createSupplyService>;

type Unit = store.SupplyRow['unit'];

const BY_WEIGHT: ReadonlySet<string> = new Set(['flux', 'pickle_salt', 'gas']);

export function createSupplyService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { pack, orderPoint, ...supply }: z.infer<typeof NewSupply>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { kind, unit } = supply;
        const byCount: FieldError[] =
          BY_WEIGHT.has(kind) && unit !== 'g'
            ? [{ pointer: '/unit', detail: `${kind.replaceAll('_', ' ')} goes by the gram.`, given: unit }]
            : [];
        holdFields([...byCount, ...quantityErrors(unit, { pack, orderPoint })], actor.confirmed);
        holdNameFree(tx, supply.name);
        const row = store.insertSupply(tx, {
          ...supply,
          ...inUnits(unit, { pack, orderPoint }),
          id: newId(by.at),
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'supply', id: row.id, after: row });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getSupply(db, id)),

    stored: (id: string) => store.getSupply(db, id),

    list(actor: Actor, { active, orderNow, limit, ...query }: z.infer<typeof SupplyQuery>) {
      const rows = store.listSupplies(db, { ...query, active: active === undefined ? undefined : active === 'true' });
      const shown = orderNow === undefined ? rows.slice(0, limit + 1) : rows;
      const items = shown.map((row) => show(db, actor, row));
      const wanted = items.filter((item) => orderNow === undefined || item.orderNow === (orderNow === 'true'));
      return pageOf(wanted, { limit }, (item) => item);
    },

    change(actor: Actor, id: string, seen: number, { pack, orderPoint, ...change }: z.infer<typeof SupplyChange>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getSupply(tx, id);
        holdToVersion('supply', before.version, seen);
        holdFields(quantityErrors(before.unit, { pack, orderPoint }), actor.confirmed);
        const { name } = change;
        if (name !== undefined && name.toLowerCase() !== before.name.toLowerCase()) holdNameFree(tx, name);
        const after = store.updateSupply(tx, id, {
          ...membersSent({ ...change, ...inUnits(before.unit, { pack, orderPoint }) }),
          version: before.version + 1,
        });
        writeJournal(tx, by, { what: 'supply', id, before, after });
        return show(tx, actor, after);
      });
    },
  };
}

/** Pieces are whole, and nothing is less than the book can keep. */
export function unitError(unit: Unit, pointer: string, quantity: number): FieldError[] {
  if (unit === 'piece' && !Number.isInteger(quantity)) return [{ pointer, detail: 'Pieces are whole.', given: quantity }];
  return quantity > 0 && unitsOf(unit, quantity) === 0
    ? [{ pointer, detail: 'The least the book keeps is 0.0001 g.', given: quantity, unit: 'g' }]
    : [];
}

/** Prices of stock are for those who order and answer for it. */
export function seesPrices(actor: Actor): boolean {
  return actor.roles.has('desk');
}

interface Quantities<Pack> {
  pack: Pack;
  orderPoint: Pack | null;
}

function quantityErrors(unit: Unit, { pack, orderPoint }: Quantities<number | undefined>): FieldError[] {
  return [
    ...(pack === undefined ? [] : unitError(unit, '/pack', pack)),
    ...(orderPoint === undefined || orderPoint === null ? [] : unitError(unit, '/orderPoint', orderPoint)),
  ];
}

function inUnits<Pack extends number | undefined>(unit: Unit, { pack, orderPoint }: Quantities<Pack>) {
  const kept = <Given extends number | null | undefined>(given: Given) =>
    (typeof given === 'number' ? unitsOf(unit, given) : given) as Given;
  return { packUnits: kept(pack), orderPointUnits: kept(orderPoint) };
}

function holdNameFree(db: Db, name: string): void {
  if (store.findSupplyByName(db, name)) throw new Problem('already-used', `There is a supply ${name} already`);
}

function show(db: Db, actor: Actor, row: store.SupplyRow) {
  const { price, packUnits, orderPointUnits, ...rest } = row;
  const { unit } = row;
  const { onHandUnits, averageCost, value } = levelOf(unit, sumsNow(db, row.id));
  const packs = packsToOrder(row, onHandUnits);
  const { currency } = getSettings(db);
  return {
    ...rest,
    pack: quantityOf(unit, packUnits),
    orderPoint: orderPointUnits === null ? null : quantityOf(unit, orderPointUnits),
    onHand: quantityOf(unit, onHandUnits),
    packsOnHand: Number((onHandUnits / packUnits).toFixed(2)),
    orderNow: packs > 0,
    order: quantityOf(unit, packs * packUnits),
    ...(seesPrices(actor)
      ? {
          price,
          averageCost: averageCost?.toDecimalPlaces(6).toFixed() ?? null,
          value: money(toMinor(value, currency), currency),
        }
      : {}),
  };
}

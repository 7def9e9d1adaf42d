import type { z } from 'zod';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { fenceError } from '../../platform/http/fences.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { lateDate, unitPriceErrors } from './field-errors.ts';
import type { NewSolderProduct, SolderProductChange, SolderProductQuery } from './solder-products.schema.ts';
import * as store from './solder-products.store.ts';
import { documentBy, keptPricePerG, seesPrices, shownPrice } from './stock-fields.ts';

export type SolderProductService = ReturnType<typeof createSolderProductService>;

export function createSolderProductService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { price, metalFraction, ...product }: z.infer<typeof NewSolderProduct>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const wanted = {
          ...product,
          metalFraction: metalFraction ?? (product.form === 'paste' ? null : 1),
          fluxFluoride: product.fluxFluoride ?? (product.form === 'paste' ? ('unknown' as const) : null),
        };
        holdFields([...melting(wanted), ...paste(wanted), ...unitPriceErrors(tx, '/price/amount', price)], actor.confirmed);
        holdCodeFree(tx, product.code);
        const row = store.insertProduct(tx, {
          ...wanted,
          metalFraction: wanted.metalFraction ?? 1,
          id: newId(by.at),
          pricePerG: keptPricePerG(price),
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'solder-product', id: row.id, after: row });
        return show(actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(actor, store.getProduct(db, id)),

    /** What is kept now, in the words of a request. */
    stored: (id: string) => {
      const row = store.getProduct(db, id);
      return { ...row, price: shownPrice(row.pricePerG) };
    },

    list(actor: Actor, { active, ...query }: z.infer<typeof SolderProductQuery>) {
      const rows = store.listProducts(db, { ...query, active: active === undefined ? undefined : active === 'true' });
      return pageOf(rows, query, (row) => show(actor, row));
    },

    change(actor: Actor, id: string, seen: number, { price, document, ...change }: z.infer<typeof SolderProductChange>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getProduct(tx, id);
        holdToVersion('solder product', before.version, seen);
        const given = membersSent(change);
        const wanted: store.SolderProductRow = { ...before, ...given };
        if (wanted.form !== 'paste' && change.metalFraction === undefined) wanted.metalFraction = 1;
        if (wanted.form !== before.form && change.fluxFluoride === undefined)
          wanted.fluxFluoride = wanted.form === 'paste' ? 'unknown' : null;
        const temperaturesChanged = wanted.solidusC !== before.solidusC || wanted.liquidusC !== before.liquidusC;
        const pasteChanged =
          wanted.form !== before.form ||
          wanted.metalFraction !== before.metalFraction ||
          wanted.fluxFluoride !== before.fluxFluoride;
        holdFields(
          [
            ...(temperaturesChanged ? melting(wanted) : []),
            ...(pasteChanged ? paste(wanted) : []),
            ...(price && keptPricePerG(price) !== before.pricePerG ? unitPriceErrors(tx, '/price/amount', price) : []),
            ...lateDate('/document/datedOn', document?.datedOn, dateInZone(by.at, getSettings(tx).timeZone)),
          ],
          actor.confirmed,
        );
        if (wanted.code !== before.code) holdCodeFree(tx, wanted.code);
        const cleared = before.cadmiumStanding !== 'no' && wanted.cadmiumStanding === 'no';
        if (cleared && !document) {
          throw new Problem(
            'condition-not-met',
            `Cannot say that there is no cadmium in ${before.name}: send the document that says so (supplier_sheet or laboratory_analysis) with its reference and date`,
          );
        }
        const after = store.updateProduct(tx, id, {
          ...wanted,
          ...(price ? { pricePerG: keptPricePerG(price) } : {}),
          cadmiumDocument: wanted.cadmiumStanding === 'no' ? (documentBy(actor, document) ?? before.cadmiumDocument) : null,
          version: before.version + 1,
        });
        writeJournal(tx, by, { what: 'solder-product', id, before, after });
        return show(actor, after);
      });
    },
  };
}

function melting({ solidusC, liquidusC }: { solidusC: number; liquidusC: number }): FieldError[] {
  if (liquidusC < solidusC) {
    return [
      {
        pointer: '/liquidusC',
        detail: `Flow point ${liquidusC} is below melting start ${solidusC}: swapped?`,
        given: liquidusC,
        unit: '°C',
      },
    ];
  }
  return fenceError('/liquidusC', checkFence('solder_product', 'windowK', liquidusC - solidusC), liquidusC);
}

function paste(wanted: { form: string; metalFraction: number | null; fluxFluoride: string | null }): FieldError[] {
  return [...metalInPaste(wanted), ...fluxInPaste(wanted)];
}

function fluxInPaste({ form, fluxFluoride }: { form: string; fluxFluoride: string | null }): FieldError[] {
  const pointer = '/fluxFluoride';
  if (form === 'paste')
    return fluxFluoride === null ? [{ pointer, detail: 'Paste brings its own flux: say no, yes or unknown.', given: null }] : [];
  return fluxFluoride === null ? [] : [{ pointer, detail: 'Only paste brings a flux: leave it out.', given: fluxFluoride }];
}

function metalInPaste({ form, metalFraction }: { form: string; metalFraction: number | null }): FieldError[] {
  const pointer = '/metalFraction';
  if (form !== 'paste') {
    return metalFraction === 1
      ? []
      : [{ pointer, detail: 'Only paste holds less than all metal: leave it out, or write 1.', given: metalFraction }];
  }
  if (metalFraction === null) return [{ pointer, detail: 'Say how much of the paste is metal, from its data sheet.' }];
  return fenceError(pointer, checkFence('solder_product', 'metalFraction', metalFraction), metalFraction);
}

function holdCodeFree(tx: Db, code: string): void {
  if (store.findProductByCode(tx, code)) throw new Problem('already-used', `There is a solder product ${code} already`);
}

function show(actor: Actor, { pricePerG, ...row }: store.SolderProductRow) {
  return { ...row, ...(seesPrices(actor) ? { price: shownPrice(pricePerG) } : {}) };
}

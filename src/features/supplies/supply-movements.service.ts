import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import type { NewSupplyMovement, SupplyMovementQuery } from './supplies.schema.ts';
import { seesPrices, unitError } from './supplies.service.ts';
import * as store from './supplies.store.ts';
import { inUnit, quantityOf, unitsOf } from './supply-level.ts';
import { addSupplyLine, sumsNow } from './supply-sums.ts';

export type SupplyMovementService = ReturnType<typeof createSupplyMovementService>;

type New = z.infer<typeof NewSupplyMovement>;

const OUT: ReadonlySet<string> = new Set(['use', 'count_down', 'write_off']);
const WITHOUT_REASON: ReadonlySet<string> = new Set(['receive', 'use', 'put_back']);

export function createSupplyMovementService({ db, clock }: Platform) {
  return {
    add(actor: Actor, sent: New) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { kind, supplyId, quantity, reason } = sent;
        holdToRole(actor, kind, kind.replaceAll('_', ' '));
        const supply = store.findSupply(tx, supplyId);
        if (!supply) throw invalidFields([{ pointer: '/supplyId', detail: 'There is no such supply.', given: supplyId }]);
        const unitCost = kind === 'receive' ? (sent.unitCost ?? supply.price) : null;
        holdFields(
          [...unitError(supply.unit, '/quantity', quantity), ...costErrors(sent, unitCost), ...reasonErrors(sent)],
          actor.confirmed,
        );
        const units = unitsOf(supply.unit, quantity);
        if (OUT.has(kind)) holdEnough(tx, supply, units);
        if (kind === 'put_back') holdOut(tx, supply, units);
        const onHandUnits = OUT.has(kind) ? -units : units;
        const row = addSupplyLine(tx, by, { kind, supplyId, onHandUnits, unitCost, reason: reason ?? null });
        return show(tx, actor, row);
      });
    },

    /** Takes a wrong movement back by its opposite, once. */
    reverse(actor: Actor, id: string, reason: string) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const wrong = store.findSupplyMovement(tx, id);
        if (!wrong) throw notFound('supply movement', id);
        if (wrong.kind === 'receive' || wrong.kind === 'write_off')
          holdToOwner(actor, `reverse a ${wrong.kind.replaceAll('_', ' ')}`);
        const done = store.findSupplyReversalOf(tx, id);
        if (wrong.kind === 'reverse' || done) {
          throw new Problem(
            'condition-not-met',
            done
              ? 'Cannot reverse this movement: it was reversed already'
              : 'Cannot reverse a reversal: book what is right instead',
            done ? { reversedById: done.id } : {},
          );
        }
        const { supplyId, onHandUnits } = wrong;
        const supply = store.getSupply(tx, supplyId);
        if (onHandUnits > 0) holdEnough(tx, supply, onHandUnits);
        if (wrong.kind === 'use' && sumsNow(tx, supplyId).outUnits < -onHandUnits)
          throw new Problem('condition-not-met', 'Cannot reverse this use: some of it was put back; reverse that first');
        const reversal = { kind: 'reverse' as const, supplyId, onHandUnits: -onHandUnits, reversesId: id, reason };
        return show(tx, actor, addSupplyLine(tx, by, reversal));
      });
    },

    list: (actor: Actor, query: z.infer<typeof SupplyMovementQuery>) =>
      pageOf(store.listSupplyMovements(db, query), query, (row) => show(db, actor, row)),
  };
}

/** @throws {Problem} condition-not-met when there is less */
function holdEnough(db: Db, { id, name, unit }: store.SupplyRow, units: number): void {
  const { onHandUnits } = sumsNow(db, id);
  if (units <= onHandUnits) return;
  throw new Problem(
    'condition-not-met',
    `Cannot take ${inUnit(unit, units)} of ${name}: ${inUnit(unit, onHandUnits)} on hand. Count it, or take less`,
    { supplyId: id, onHand: quantityOf(unit, onHandUnits) },
  );
}

function holdOut(db: Db, { id, name, unit }: store.SupplyRow, units: number): void {
  const { outUnits } = sumsNow(db, id);
  if (units <= outUnits) return;
  throw new Problem(
    'condition-not-met',
    `Cannot put ${inUnit(unit, units)} of ${name} back: of what was used, ${inUnit(unit, outUnits)} are still out`,
  );
}

function costErrors({ kind, unitCost: given }: New, unitCost: string | null): FieldError[] {
  const pointer = '/unitCost';
  if (kind === 'receive') return unitCost === null ? [{ pointer, detail: 'Say what it cost: the supply has no price.' }] : [];
  return given === undefined ? [] : [{ pointer, detail: 'Only what comes in has a cost.', given }];
}

function reasonErrors({ kind, reason }: New): FieldError[] {
  return WITHOUT_REASON.has(kind) || reason !== undefined ? [] : [{ pointer: '/reason', detail: 'Say why.' }];
}

function holdToRole(actor: Actor, kind: New['kind'], said: string): void {
  if (kind === 'write_off') holdToOwner(actor, 'write a supply off');
  const role = kind === 'receive' ? 'desk' : 'bench';
  if (!actor.roles.has(role)) throw new Problem('forbidden', `Cannot book a ${said}: that is for the ${role}`);
}

function holdToOwner(actor: Actor, what: string): void {
  if (!actor.roles.has('owner')) throw new Problem('forbidden', `Cannot ${what}: that is for the owner`);
}

function show(db: Db, actor: Actor, { onHandUnits, unitCost, ...row }: store.SupplyMovementRow) {
  return {
    ...row,
    onHand: quantityOf(store.getSupply(db, row.supplyId).unit, onHandUnits),
    reversedById: store.findSupplyReversalOf(db, row.id)?.id ?? null,
    ...(seesPrices(actor) ? { unitCost } : {}),
  };
}

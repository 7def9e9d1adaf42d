import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import { findSupplierByName, getProduct, offeredSolders, packsFor, solderOnOrder } from '../stock/index.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';
import { findCommission } from './pieces.store.ts';

/** What may be done in place of what was refused: a request that is ready to be sent. */
interface WayOn {
  says: string;
  method: 'POST';
  path: string;
  body: object;
}

/** Runs a step that takes solder from a lot; where the lot is short, the refusal says every way on, ready to be sent. */
export function sayWaysOn<Done>(tx: Db, asked: HeatMoveAsked, step: () => Done): Done {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof Problem) || error.slug !== 'solder-lot-short') throw error;
    throw new Problem(error.slug, error.message, { ...error.extensions, waysOn: waysOn(tx, asked, error.extensions) });
  }
}

function waysOn(
  tx: Db,
  asked: HeatMoveAsked,
  { offers = [] }: { offers?: { lotId: string; number: string; onHandG: number }[] },
): WayOn[] {
  return [...otherLots(asked, offers), ...waitForIt(tx, asked), ...orderIt(tx, asked), ...planAgain(tx, asked)];
}

function otherLots(
  { heat: { row }, sent }: HeatMoveAsked,
  offers: { lotId: string; number: string; onHandG: number }[],
): WayOn[] {
  if (sent.to !== 'primed') return [];
  return offers.map(({ lotId, number, onHandG }) => ({
    says: `Take lot ${number}: it holds ${onHandG} g.`,
    method: 'POST',
    path: `/api/v1/heats/${row.id}/moves`,
    body: { ...sent, lotId },
  }));
}

/** The commission rests until solder comes. */
function waitForIt(tx: Db, { heat: { row, piece }, sent }: HeatMoveAsked): WayOn[] {
  const commission = findCommission(tx, piece.commissionId)!;
  if (commission.state !== 'on_bench') return [];
  const next = solderOnOrder(tx).find(({ productId }) => productId === row.productId);
  const when = next
    ? next.expectedOn === null
      ? `order ${next.number} is expected without a date`
      : `order ${next.number} is expected on ${next.expectedOn}`
    : 'none is on order';
  const { occurredAt, deviceId, deviceSeq } = sent;
  return [
    {
      says: `Wait for it: ${when}.`,
      method: 'POST',
      path: `/api/v1/commissions/${commission.id}/moves`,
      body: { from: commission.state, to: 'resting', waitingFor: 'solder', occurredAt, deviceId, deviceSeq },
    },
  ];
}

function orderIt(tx: Db, { heat: { row } }: HeatMoveAsked): WayOn[] {
  const product = getProduct(tx, row.productId!);
  const supplier = findSupplierByName(tx, product.supplier);
  if (!supplier || solderOnOrder(tx).some(({ productId }) => productId === product.id)) return [];
  const quantityG = packsFor(product, row.plannedTenthMg);
  return [
    {
      says: `Order ${quantityG} g of ${product.name} from ${supplier.name}.`,
      method: 'POST',
      path: '/api/v1/supplier-orders',
      body: { supplierId: supplier.id, lines: [{ productId: product.id, quantityG }] },
    },
  ];
}

/** What is made stays made; the rest is planned with the other solders of the drawer. */
function planAgain(tx: Db, { by, heat: { row, piece } }: HeatMoveAsked): WayOn[] {
  const { code, name } = getProduct(tx, row.productId!);
  const others = offeredSolders(tx, dateInZone(by.at, getSettings(tx).timeZone)).filter(
    ({ id, availableG = 0 }) => id !== code && availableG > 0,
  );
  if (others.length === 0) return [];
  const solders = others.map(({ productId: _productId, name: _name, form: _form, pricePerG: _pricePerG, ...solder }) => solder);
  return [
    {
      says: `Plan again without ${name}: ${others.map((other) => other.name).join(', ')} are there.`,
      method: 'POST',
      path: `/api/v1/pieces/${piece.id}/plans`,
      body: { search: {}, solders },
    },
  ];
}

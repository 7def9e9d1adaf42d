import type { Db } from '../../platform/db/client.ts';
import { linesOf, ordersOnTheWay, type OrderLine } from './supplier-orders.store.ts';
import { workingDaysLater } from './working-days.ts';

/** What is still to come of a product, and when. */
export interface OnOrder {
  productId: string;
  tenthMg: number;
  orderId: string;
  number: string;
  /** As promised; without a promise, the lead time after it was sent. */
  expectedOn: string | null;
  isPromised: boolean;
}

/** Solder that was ordered and has not come, the soonest first. */
export function solderOnOrder(db: Db): OnOrder[] {
  return onOrder(db, ({ productId }) => productId);
}

/** The same of metal, by metal product. */
export function metalOnOrder(db: Db): OnOrder[] {
  return onOrder(db, ({ metalProductId }) => metalProductId);
}

function onOrder(db: Db, productOf: (line: OrderLine) => string | null): OnOrder[] {
  return ordersOnTheWay(db)
    .flatMap(({ order, leadWorkingDays }) => {
      const expectedOn = expectedDay(order, leadWorkingDays);
      return linesOf(db, order.id).flatMap((line): OnOrder[] => {
        const tenthMg = openOf(line);
        const productId = productOf(line);
        if (productId === null || tenthMg === 0) return [];
        return [
          { productId, tenthMg, orderId: order.id, number: order.number, expectedOn, isPromised: order.promisedOn !== null },
        ];
      });
    })
    .toSorted((a, b) => (a.expectedOn ?? '9999').localeCompare(b.expectedOn ?? '9999'));
}

export function openOf({ tenthMg, receivedTenthMg, closedShort }: OrderLine): number {
  return closedShort ? 0 : Math.max(0, tenthMg - receivedTenthMg);
}

export function expectedDay(
  { promisedOn, sentOn }: { promisedOn: string | null; sentOn: string | null },
  leadWorkingDays: number,
): string | null {
  return promisedOn ?? (sentOn === null ? null : workingDaysLater(sentOn, leadWorkingDays));
}

import type { ItemOf, ReplyOf } from '../../api/reply.ts';

/** What the drawer reads of the book. */
export type Stocktake = ReplyOf<'/api/v1/stocktakes/{id}'>;
export type MetalLot = ItemOf<'/api/v1/metal-lots'>;
export type ReorderList = Exclude<ReplyOf<'/api/v1/reorder-list'>, string>;
export type SupplierToOrder = ReorderList['suppliers'][number];

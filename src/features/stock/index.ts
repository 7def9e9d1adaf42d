export { inGrams, toG, toTenthMg } from './grams.ts';
export { bookSolderUse, holdLotFit } from './heat-solder.ts';
export { freeHold, holdSolder } from './holds.ts';
export { offeredSolders, type OfferedSolder } from './offered-solders.ts';
export { findProductByCode, getProduct, type SolderProductRow } from './solder-products.store.ts';
export type { LotRow } from './solder-lots.store.ts';
export type { MovementRow } from './stock-movements.store.ts';
export { solderUses } from './weekly-use.ts';

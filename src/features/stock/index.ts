export { lateDate } from './field-errors.ts';
export { toG, toTenthMg } from './grams.ts';
export { bookSolderUse, holdLotFit } from './heat-solder.ts';
export { freeHold, holdSolder } from './holds.ts';
export { offeredSolders } from './offered-solders.ts';
export { findProductByCode, getProduct } from './solder-products.store.ts';
export { CadmiumDocumentReply, NewCadmiumDocument } from './stock-fields.ts';
export { solderUses } from './weekly-use.ts';

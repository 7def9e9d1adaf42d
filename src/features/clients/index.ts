export { withoutCardNumber } from './clients.schema.ts';
export { findClient } from './clients.store.ts';

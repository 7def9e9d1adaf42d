export { boughtInMinor } from './bought-in.ts';
export { actualCosts } from './actual-cost.ts';
export { timesOf } from './actual-cost.store.ts';
export { accountOf, showAccount, type Account } from './commission-account.ts';
export { isOver } from './commission-over.ts';
export { AccountReply } from './commissions.schema.ts';
export { findCommission, getCommission, type CommissionRow } from './commissions.store.ts';

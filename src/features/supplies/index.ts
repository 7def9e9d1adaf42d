export { SupplyReply } from './supplies.schema.ts';
export { auditSupplies } from './supply-audit.ts';
export { suppliesToOrder, supplyStock } from './supply-stock.ts';

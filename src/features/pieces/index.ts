export { findObservedHeat } from './observed-heat.ts';
export { currentDesign, getPiece, livePiecesOf, piecesOf, type PieceRow } from './piece-reads.ts';
export { planForPricing, solderNeeded, type PlanForPricing } from './plan-for-pricing.ts';

export { currentDesign, getPiece, piecesOf, type CurrentDesign, type PieceRow } from './piece-reads.ts';
export { planForPricing, solderNeeded, type PlanForPricing, type SolderNeeded } from './plan-for-pricing.ts';

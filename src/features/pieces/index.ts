export { openIncident } from './open-incident.ts';
export { sendPieceAway, takePieceBack } from './out-and-back.ts';
export { findObservedHeat } from './observed-heat.ts';
export { currentDesign, findPiece, getPiece, livePiecesOf, piecesOf, type PieceRow } from './piece-reads.ts';
export { planForPricing, solderNeeded, type PlanForPricing } from './plan-for-pricing.ts';

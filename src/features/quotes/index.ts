export { answerByClient } from './answer-by-client.ts';
export { weighablePiece } from './weighable-piece.ts';

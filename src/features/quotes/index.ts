export { weighablePiece } from './weighable-piece.ts';

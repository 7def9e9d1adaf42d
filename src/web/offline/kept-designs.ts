import type { Design } from '../../../shared/design/design.ts';
import { forget, keep, placesOf, readKept } from './kept.ts';

const PLACE = 'bench-design:';

/** A piece as it was drawn when this device saw it last. */
export function keptDesign(pieceId: string): Design | undefined {
  return readKept(PLACE + pieceId) as Design | undefined;
}

export function keepDesign(pieceId: string, design: Design): void {
  keep(PLACE + pieceId, design);
}

export function forgetDesigns(isToGo: (pieceId: string) => boolean): void {
  for (const pieceId of placesOf(PLACE)) if (isToGo(pieceId)) forget(PLACE + pieceId);
}

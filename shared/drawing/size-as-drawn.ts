import type { Design } from '../design/design.ts';
import { boundsOf } from './geometry.ts';
import { layOutParts } from './lay-out-parts.ts';

/**
 * How wide and high a piece is in its drawing, in mm, bending and overlap as drawDesign() has them.
 *
 * @returns null for parts that do not all hang together: how they will lie is not known
 * @throws {EngineInputError} as drawDesign() does
 */
export function sizeAsDrawn(design: Design): { widthMm: number; heightMm: number } | null {
  const { parts, groups } = layOutParts(design);
  if (groups !== 1) return null;
  const { leftMm, rightMm, bottomMm, topMm } = boundsOf(parts.flatMap(({ strokes }) => strokes));
  return { widthMm: rightMm - leftMm, heightMm: topMm - bottomMm };
}

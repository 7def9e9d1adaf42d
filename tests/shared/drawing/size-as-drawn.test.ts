import { expect, test } from 'vitest';
import { earring, pendant } from '../../../seed/designs.ts';
import { bangle } from '../../../seed/larger-designs.ts';
import { sizeAsDrawn } from '../../../shared/drawing/size-as-drawn.ts';

test('sizeAsDrawn() is the outside of all that hangs together', () => {
  // A plate of 30 × 20 with a ring of 6.4 on its upper edge; a disc of 12 with a loop of 4 from 5.3 above its middle.
  expect(rounded(sizeAsDrawn(pendant)!)).toEqual([30, 26.4]);
  expect(rounded(sizeAsDrawn(earring)!)).toEqual([12, 15.3]);
});

test('sizeAsDrawn() does not guess how loose parts will lie', () => {
  expect(sizeAsDrawn(bangle)).toBeNull();
});

function rounded({ widthMm, heightMm }: { widthMm: number; heightMm: number }): number[] {
  return [widthMm, heightMm].map((mm) => Number(mm.toFixed(2)));
}

import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { PartSchema } from './design.schema.ts';

const lengthMm = fenced('part', 'lengthMm', z.number());
const thicknessMm = fenced('part', 'thicknessMm', z.number());

export const RingBlankBody = z.strictObject({
  sizeMm: fenced('client', 'ringSizeMm', z.number())
    .exactOptional()
    .describe('Ring size of ISO 8653: the inside circumference. Either this or insideDiameterMm.'),
  insideDiameterMm: lengthMm.exactOptional().describe('Across the inside: of a bezel, a bangle, or a ring on the stick.'),
  stock: z
    .discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('strip'), widthMm: lengthMm, thicknessMm }),
      z.strictObject({ kind: z.literal('round_wire'), diameterMm: thicknessMm }),
      z.strictObject({ kind: z.literal('square_wire'), sideMm: thicknessMm }),
      z.strictObject({ kind: z.literal('half_round_wire'), widthMm: lengthMm, heightMm: thicknessMm }),
    ])
    .describe('What it is bent from; half-round with its flat inside.'),
  metal: PartSchema.shape.metal,
  overMm: z.number().min(0).max(20).default(0).describe('Left over for filing the ends true.'),
});

export const RingBlankReply = z.object({
  insideCircumferenceMm: z.number(),
  insideDiameterMm: z.number(),
  neutralMm: z
    .number()
    .describe('π · (inside diameter + thickness): round the line that keeps its length when the metal is bent.'),
  wideAllowanceMm: z.number().describe('0.5 where it is more than 4 mm wide, and so tighter than its size.'),
  blankMm: z.number().describe('The length to cut: all of these.'),
  massG: z.number().describe('Of the length that is cut.'),
  ringG: z.number().describe('Of the ring once it is closed.'),
});

import { z } from 'zod';
import { DesignSchema } from '../calculations/index.ts';

export const DesignBody = DesignSchema.extend({
  entered: z
    .record(z.string().regex(/^\//, 'Use a JSON Pointer into the design.'), z.string().min(1).max(60))
    .default({})
    .describe(
      'What was typed where another unit was used, by JSON Pointer into the design: "/parts/0/form/thicknessMm": "18 ga".',
    ),
});

export const DesignReply = z.object({
  pieceId: z.string(),
  number: z.number().int().describe('Counts up with every change; it is the ETag.'),
  parts: DesignSchema.shape.parts,
  joints: DesignSchema.shape.joints,
  contacts: DesignSchema.shape.contacts,
  rules: DesignSchema.shape.rules,
  entered: z.record(z.string(), z.string()),
  madeBy: z.string(),
  createdAt: z.string(),
});

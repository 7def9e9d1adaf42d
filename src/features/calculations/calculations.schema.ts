import { z } from 'zod';
import { DesignSchema, PartSchema, PricedDesignSchema, SolderSchema } from './design.schema.ts';
import { BenchSchema, PlanSchema, SearchOptionsSchema } from './plan.schema.ts';

const solders = z.array(SolderSchema).min(1).max(40);

export const PlanCheckBody = z.strictObject({ design: DesignSchema, solders, bench: BenchSchema, plan: PlanSchema });

export const PlanSearchBody = z.strictObject({
  design: DesignSchema,
  solders,
  bench: BenchSchema,
  options: SearchOptionsSchema.exactOptional(),
});

export const PieceWeightBody = z.strictObject({
  design: PricedDesignSchema.extend({
    joints: PricedDesignSchema.shape.joints.exactOptional(),
    parts: z.array(PartSchema).min(1).max(200),
  }),
});

export const PieceWeightReply = z.object({
  parts: z.array(z.object({ part: z.string(), volumeMm3: z.number(), massG: z.number(), areaMm2: z.number() })),
  totalG: z.number(),
  fineness: z.number(),
});

export const SolderUseBody = z.strictObject({ design: PricedDesignSchema, solders });

export const SolderUseReply = z.object({
  joints: z.array(
    z.object({
      joint: z.string(),
      gapVolumeMm3: z.number(),
      filletVolumeMm3: z.number(),
      inJointG: z.number(),
      placedG: z.number(),
      decidedBy: z.enum(['volume', 'smallest_piece']),
    }),
  ),
  bySolder: z.array(z.object({ solder: z.string(), placedG: z.number() })),
});

export const UnitConversionBody = z.strictObject({
  value: z.number(),
  /** UCUM code, or the gauge awg or swg. */
  from: z.string().min(1).max(20),
  to: z.string().min(1).max(20),
});

export const UnitConversionReply = z.object({ value: z.number(), unit: z.string() });

import { z } from 'zod';
import { LEAST_PACK_G } from '../../../shared/stock/order-quantity.ts';
import { DesignSchema, PartSchema, PricedDesignSchema, SolderSchema } from './design.schema.ts';
import { BenchSchema, PlanSchema, ProtectionOptionsSchema, SearchOptionsSchema } from './plan.schema.ts';

const solders = z.array(SolderSchema).min(1).max(40);

export const PlanCheckBody = z.strictObject({
  design: DesignSchema,
  solders,
  bench: BenchSchema,
  plan: PlanSchema,
  histories: z.boolean().exactOptional().describe('Whether every heat answers how its temperatures went.'),
  fill: ProtectionOptionsSchema.exactOptional().describe(
    'Protections that may be added before the plan is judged: each heat that needs some and has none gets the fewest that do.',
  ),
});

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
  from: z.string().min(1).max(20).describe('UCUM code, or the gauge awg or swg.'),
  to: z.string().min(1).max(20),
});

export const UnitConversionReply = z.object({ value: z.number(), unit: z.string() });

const grams = z.number().min(0).max(100_000);

export const ReorderPointBody = z.strictObject({
  weeklyUseG: z.array(grams).max(520).describe('Oldest first, weeks without use as 0.'),
  largestPieceG: grams,
  leadWeeks: z.number().min(0).max(52),
  reviewWeeks: z.number().min(0).max(52),
  onHandG: z.number().min(-1).max(100_000),
  onOrderG: grams,
  heldG: grams,
  packG: z.number().min(LEAST_PACK_G).max(10_000),
  priceMinorPerG: z.number().positive().max(1_000_000),
  orderCostMinor: z.number().min(0).max(1_000_000),
  holdingFraction: z.number().positive().max(1),
  horizonWeeks: z.number().positive().max(520),
});

export const ReorderPointReply = z.object({
  orderPointG: z.number(),
  decidedBy: z.enum(['use', 'largest_piece', 'short_history']),
  rateGPerWeek: z.number(),
  orderG: z.number(),
  orderNow: z.boolean(),
  working: z.array(z.string()),
});

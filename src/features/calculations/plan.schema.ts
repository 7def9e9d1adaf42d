import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';

const id = z.string().min(1).max(60);
const positionMm = z.number().min(-1000).max(1000);

const PlaceSchema = z.strictObject({
  part: id,
  xMm: positionMm.exactOptional(),
  yMm: positionMm.exactOptional(),
  alongMm: positionMm.exactOptional(),
  acrossMm: positionMm.exactOptional(),
});

export const BenchSchema = z.strictObject({
  torch: z.union([
    z.enum(['micro', 'small', 'medium', 'large', 'extra_large', 'hot_point']),
    z.strictObject({
      powerW: z.number().positive().max(20_000),
      spreadMm: z.number().min(1).max(100),
      gasC: z.number().min(800).max(3500),
    }),
  ]),
  support: z.enum(['brick', 'charcoal', 'hard_brick', 'air']),
  riseK: fenced('joint_plan', 'riseK', z.number()).exactOptional(),
  antiFlowBudgetS: z.number().min(1).max(120).exactOptional(),
  calibration: z
    .strictObject({
      powerFactor: z.number().min(0.2).max(5),
      lossFactor: z.number().min(0.2).max(5),
      spreadFactor: z.number().min(0.2).max(5),
    })
    .nullable()
    .exactOptional(),
});

const FlameSchema = z.strictObject({
  tiltDeg: z.number().min(0).max(80).exactOptional(),
  towards: id.exactOptional(),
  awayFrom: id.exactOptional(),
  aim: PlaceSchema.exactOptional(),
  sweepMm: z.number().min(0).max(1000).exactOptional(),
});

const ProtectionSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('sink'),
    sink: z.enum(['tweezers', 'heavy_clamp', 'wet_pack']),
    at: z.union([z.strictObject({ joint: id }), PlaceSchema]),
  }),
  z.strictObject({ kind: z.literal('shield'), guards: id }),
  z.strictObject({ kind: z.literal('anti_flow'), guards: id }),
]);

export const HeatSchema = z.strictObject({
  joints: z.array(id).max(80).readonly(),
  solder: id.exactOptional(),
  purpose: z.enum(['solder', 'anneal']).exactOptional(),
  flame: FlameSchema.exactOptional(),
  protections: z.array(ProtectionSchema).max(20).readonly().exactOptional(),
});

export const PlanSchema = z
  .strictObject({ heats: z.array(HeatSchema).min(1).max(80).readonly() })
  .register(z.globalRegistry, { id: 'Plan' });

export const SearchOptionsSchema = z.strictObject({
  policy: z.enum(['stay_solid', 'do_not_run', 'both']).exactOptional(),
  targetMarginK: z
    .union([z.literal(0), z.literal(10), z.literal(20), z.literal(30)])
    .exactOptional()
    .describe('Margin wanted beyond the uncertainty.'),
  preferHigherGrades: z.boolean().exactOptional(),
  protections: z
    .array(
      z.strictObject({
        kind: z.enum(['flame_away', 'sink', 'shield', 'anti_flow']),
        maxPerHeat: z.number().int().min(0).max(8).exactOptional(),
        leastDistanceMm: z.number().min(0).max(1000).exactOptional(),
      }),
    )
    .max(20)
    .exactOptional(),
  workUnits: z.number().int().min(1000).max(100_000_000).exactOptional(),
  timeMs: z.number().int().min(10).max(60_000).exactOptional(),
  stopAt: z.enum(['margin', 'protections', 'heats', 'grades', 'preference', 'time']).exactOptional(),
  keep: z.array(HeatSchema).max(80).exactOptional(),
});

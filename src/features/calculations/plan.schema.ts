import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { PlaceSchema } from './design.schema.ts';

const id = z.string().min(1).max(60);

const TorchSchema = z.union([
  z.enum(['micro', 'small', 'medium', 'large', 'extra_large', 'hot_point']),
  z.strictObject({
    powerW: z.number().positive().max(20_000),
    spreadMm: z.number().min(1).max(100),
    gasC: z.number().min(800).max(3500),
  }),
]);

export const SupportSchema = z.enum(['brick', 'charcoal', 'hard_brick', 'air']);

export const BenchSchema = z
  .strictObject({
    torch: TorchSchema,
    support: SupportSchema.describe('What the work lies on.'),
    riseK: fenced('joint_plan', 'riseK', z.number())
      .exactOptional()
      .describe('How much later a joint melts again after each heat; disputed, so 0 when absent.'),
    antiFlowBudgetS: z.number().min(1).max(120).exactOptional().describe('How long anti-flow holds a joint above its solidus.'),
    calibration: z
      .strictObject({
        powerFactor: z.number().min(0.2).max(5),
        lossFactor: z.number().min(0.2).max(5),
        spreadFactor: z.number().min(0.2).max(5),
      })
      .nullable()
      .exactOptional()
      .describe('What a torch calibration found for this hand and torch; null: none.'),
  })
  .register(z.globalRegistry, { id: 'Bench' });

export const FlameSchema = z.strictObject({
  tiltDeg: z.number().min(0).max(80).exactOptional().describe('From upright; 0 when absent.'),
  towards: id.exactOptional().describe('Joint or part that the tilted flame points to.'),
  awayFrom: id.exactOptional().describe('Joint or part that the tilted flame points away from.'),
  aim: PlaceSchema.exactOptional().describe('Where it is held; over the joints made when absent.'),
  sweepMm: z.number().min(0).max(1000).exactOptional().describe('How far it is swept to and fro.'),
});

export const ProtectionSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('sink'),
    sink: z.enum(['tweezers', 'heavy_clamp', 'wet_pack']),
    at: z.union([z.strictObject({ joint: id }), PlaceSchema]),
  }),
  z.strictObject({ kind: z.literal('shield'), guards: id.describe('Joint or part.') }),
  z.strictObject({ kind: z.literal('anti_flow'), guards: id.describe('Joint.') }),
]);

export const HeatSchema = z.strictObject({
  joints: z.array(id).max(80).readonly().describe('Ids of the joints made in it; none for an anneal.'),
  solder: id.exactOptional().describe('The one solder of the heat: its id, in the book the code of its product.'),
  purpose: z.enum(['solder', 'anneal']).exactOptional().describe('solder when absent.'),
  torch: TorchSchema.exactOptional().describe(
    "The torch of this heat, where it is not the bench's. A calibration is of the bench's torch: on another, a heat has none.",
  ),
  support: SupportSchema.exactOptional().describe("What the work lies on in this heat, where it is not the bench's."),
  flame: FlameSchema.exactOptional(),
  protections: z.array(ProtectionSchema).max(20).readonly().exactOptional(),
});

export const PlanSchema = z
  .strictObject({ heats: z.array(HeatSchema).min(1).max(80).readonly() })
  .register(z.globalRegistry, { id: 'Plan' });

export const ProtectionOptionsSchema = z
  .array(
    z.strictObject({
      kind: z.enum(['flame_away', 'sink', 'shield', 'anti_flow']),
      maxPerHeat: z.number().int().min(0).max(8).exactOptional(),
      leastDistanceMm: z.number().min(0).max(1000).exactOptional(),
    }),
  )
  .max(20);

export const SearchOptionsSchema = z.strictObject({
  policy: z
    .enum(['stay_solid', 'do_not_run', 'both'])
    .exactOptional()
    .describe('What earlier joints must do; both when absent: solid if that can be had.'),
  targetMarginK: z
    .union([z.literal(0), z.literal(10), z.literal(20), z.literal(30)])
    .exactOptional()
    .describe('Margin wanted beyond the uncertainty.'),
  preferHigherGrades: z.boolean().exactOptional().describe('Weighs high grades before few of them.'),
  protections: ProtectionOptionsSchema.exactOptional().describe('Those that it may use; none when absent.'),
  workUnits: z
    .number()
    .int()
    .min(1000)
    .max(100_000_000)
    .exactOptional()
    .describe('How much it may work; the same work gives the same plan.'),
  timeMs: z.number().int().min(10).max(60_000).exactOptional().describe('A safety net.'),
  stopAt: z
    .enum(['margin', 'protections', 'heats', 'grades', 'preference', 'time'])
    .exactOptional()
    .describe('The last objective to be proven.'),
  keep: z.array(HeatSchema).max(80).exactOptional().describe('Heats that are done: the plan begins with them.'),
});

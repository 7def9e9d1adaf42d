import { z } from 'zod';
import { DesignSchema, PartSchema, SolderSchema } from './design.schema.ts';
import { BenchSchema, PlanSchema } from './plan.schema.ts';

const seconds = z.number().positive().max(1800);
const support = BenchSchema.shape.support.exactOptional();
const sizeMm = z.number().positive().max(300);

export const ObservedTimesSchema = z.strictObject({
  secondsToFluxClear: seconds.exactOptional().describe('From lighting to glassy clear flux at the joint.'),
  secondsToFlow: seconds.exactOptional().describe('From lighting to the flash of solder through the whole joint.'),
  secondsToEndOfGlow: seconds
    .exactOptional()
    .describe(
      'From flame off at flow to the last of the glow in a dim room, the piece lifted off its support and held in the air.',
    ),
});

export const ObservedHeatSchema = ObservedTimesSchema.extend({
  design: DesignSchema,
  plan: PlanSchema,
  heat: z.number().int().min(1).max(80).describe('Which heat of the plan, from 1.'),
  support: support.describe('What the work lay on; as planned for the heat when absent, or brick.'),
  solders: z
    .array(SolderSchema)
    .min(1)
    .max(40)
    .exactOptional()
    .describe('Those the plan names; the grades of the table when absent.'),
});

export const ObservedStripSchema = z.strictObject({
  metal: PartSchema.shape.metal.exactOptional().describe('As of a part; sterling when absent.'),
  lengthMm: sizeMm,
  widthMm: sizeMm,
  thicknessMm: z.number().min(0.1).max(6),
  firstChipMm: z.number().min(0).max(300).exactOptional().describe('From one end of the strip; 5 when absent.'),
  chipDistanceMm: sizeMm.exactOptional().describe('Between the chips; 15 when absent.'),
  liquidusC: SolderSchema.shape.liquidusC,
  support: support.describe('Air when absent: the strip held by its end.'),
  secondsBetweenChips: seconds.describe('From the flow of the chip at the flame, which stays there, to that of the other.'),
});

export const TorchCalibrationBody = z.strictObject({
  torch: BenchSchema.shape.torch,
  // A fit plays every observation some sixty times, so there are not many.
  observations: z.array(ObservedHeatSchema).max(8),
  strips: z.array(ObservedStripSchema).max(8).exactOptional(),
});

const factor = z.object({
  value: z.number().describe('The torch’s own number is multiplied by it.'),
  standardError: z.number(),
  toldByData: z.boolean().describe('False: it is what was assumed before; these observations cannot tell.'),
});

export const TorchCalibrationReply = z.object({
  power: factor,
  loss: factor,
  spread: factor,
  times: z.array(
    z.object({
      of: z.enum(['heat', 'strip']),
      number: z.number().int(),
      what: z.enum(['flux_clear', 'flow', 'end_of_glow', 'chip_gap']),
      observedS: z.number(),
      predictedS: z.number(),
    }),
  ),
  says: z.array(z.string()),
});

import { z } from 'zod';
import { DesignSchema, SolderSchema } from './design.schema.ts';
import { BenchSchema, PlanSchema } from './plan.schema.ts';

const seconds = z.number().positive().max(1800);
const support = BenchSchema.shape.support.exactOptional();
const sizeMm = z.number().positive().max(300);

/** Seconds by the clock: from lighting, and from flame off, the piece lifted off its support and held in the air. */
export const ObservedTimesSchema = z.strictObject({
  secondsToFluxClear: seconds.exactOptional(),
  secondsToFlow: seconds.exactOptional(),
  secondsToEndOfGlow: seconds.exactOptional(),
});

export const ObservedHeatSchema = ObservedTimesSchema.extend({
  design: DesignSchema,
  plan: PlanSchema,
  /** Which heat of the plan, from 1. */
  heat: z.number().int().min(1).max(80),
  /** What the work lay on. Brick when absent. */
  support,
  /** Those the plan names; the grades of the table when absent. */
  solders: z.array(SolderSchema).min(1).max(40).exactOptional(),
});

/** Two chips of one solder on a strip; the flame stays on the first. One of 40 × 6 × 1 mm, held in the air by its end, serves most torches. */
export const ObservedStripSchema = z.strictObject({
  /** Sterling when absent. */
  metal: z.string().min(1).max(60).exactOptional(),
  lengthMm: sizeMm,
  widthMm: sizeMm,
  thicknessMm: z.number().min(0.1).max(6),
  /** From one end of the strip; 5 mm when absent. */
  firstChipMm: z.number().min(0).max(300).exactOptional(),
  /** Between the chips; 15 mm when absent. */
  chipDistanceMm: sizeMm.exactOptional(),
  liquidusC: SolderSchema.shape.liquidusC,
  /** Air when absent. */
  support,
  /** From the flow of the first chip to that of the second. */
  secondsBetweenChips: seconds,
});

/** A fit plays every observation some sixty times, so there are not many. */
export const observedHeats = z.array(ObservedHeatSchema).max(8);
export const observedStrips = z.array(ObservedStripSchema).max(8);

export const TorchCalibrationBody = z.strictObject({
  torch: BenchSchema.shape.torch,
  observations: observedHeats,
  strips: observedStrips.exactOptional(),
});

const factor = z.object({
  value: z.number(),
  standardError: z.number(),
  /** False: it is what was assumed before, and these observations cannot tell. */
  toldByData: z.boolean(),
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

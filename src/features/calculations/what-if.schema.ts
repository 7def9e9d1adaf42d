import { z } from 'zod';
import { PlanCheckBody } from './calculations.schema.ts';
import { PlanCheckReply } from './check.schema.ts';
import { PlaceSchema } from './design.schema.ts';
import { FlameSchema, PlanSchema, ProtectionSchema, SupportSchema } from './plan.schema.ts';

const heat = z.number().int().min(1).max(80).describe('Counted as the edit before left them.');
const id = z.string().min(1).max(60);
const protections = z.array(ProtectionSchema).max(20);

const OneEdit = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('protect'),
    heat,
    protections: protections.describe('Those to be added; none with awayFrom alone.'),
    awayFrom: id.exactOptional().describe('Joint or part that the flame is tilted away from.'),
  }),
  z.strictObject({
    kind: z.literal('unprotect'),
    heat,
    protections: protections.describe('Those to be taken away, each as the plan has it.'),
    upright: z.literal(true).exactOptional().describe('The tilt of the flame away with them.'),
  }),
  z.strictObject({
    kind: z.literal('sink'),
    heat,
    sink: ProtectionSchema.describe('The sink to be moved, as the plan has it.'),
    to: z.union([z.strictObject({ joint: id }), PlaceSchema]),
  }),
  z.strictObject({
    kind: z.literal('flame'),
    heat,
    flame: FlameSchema.nullable().describe('Null: as the model plays it when nobody says.'),
  }),
  z.strictObject({
    kind: z.literal('bench'),
    heats: z.array(heat).min(1).max(80),
    torch: z.enum(['micro', 'small', 'medium', 'large', 'extra_large', 'hot_point']).exactOptional(),
    support: SupportSchema.exactOptional(),
  }),
  z.strictObject({ kind: z.literal('solder'), heat, solder: id }),
  z.strictObject({ kind: z.literal('move_heat'), heat, to: heat }),
  z.strictObject({ kind: z.literal('move_joint'), joint: id, to: heat.describe('The heat it is made in instead.') }),
  z.strictObject({ kind: z.literal('own_heat'), joint: id, at: heat.describe('The number of its new heat.') }),
]);

const Edit = z.union([OneEdit, z.strictObject({ kind: z.literal('together'), heat, edits: z.array(OneEdit).min(1).max(4) })]);

export const PlanEdits = z
  .array(Edit)
  .min(1)
  .max(20)
  .describe('Made one after the other. A bestFix or a help of a plan check is one without its plan or becomes.');

export const PlanWhatIfBody = PlanCheckBody.omit({ histories: true, fill: true }).extend({ edits: PlanEdits });

const nullable = z.number().nullable();
const beforeAfter = <T extends z.ZodType>(of: T) => z.object({ before: of, after: of });
const flow = z.enum(['flows', 'only_just', 'does_not_flow']).nullable();

const JointReading = z.object({
  peakC: z.number(),
  solidMarginK: z.number(),
  runMarginK: z.number(),
  verdict: z.enum(['runs', 'may_run', 'held', 'softens', 'may_soften', 'stays_solid']),
  says: z.string(),
});

const PartReading = z.object({
  peakC: z.number(),
  limitC: z.number(),
  verdict: z.enum(['within', 'near_limit', 'over_limit']),
  says: z.string(),
});

const Problems = z.array(
  PlanCheckReply.shape.problems.element.pick({
    heat: true,
    joint: true,
    part: true,
    rule: true,
    peakC: true,
    limitC: true,
    marginK: true,
    uncertaintyK: true,
    says: true,
  }),
);

export const PlanWhatIfReply = z
  .object({
    plan: PlanSchema.describe('With the edits made.'),
    verdict: beforeAfter(PlanCheckReply.shape.verdict),
    flameS: beforeAfter(nullable).describe('Flame to flow over all heats; null where one does not flow.'),
    handsOnMinutes: beforeAfter(z.number()).describe('Of the whole plan, by the usual minutes.'),
    heats: z
      .array(
        z.object({
          before: nullable.describe('Its number before the edits; null for a new one.'),
          after: nullable.describe('Its number after them; null for one that is gone.'),
          joints: z.array(z.string()),
          flow: beforeAfter(flow),
          timeToFlowS: beforeAfter(nullable),
          isEdited: z.boolean().describe('The heat itself is done otherwise.'),
          earlierJoints: z
            .array(z.object({ joint: z.string(), ...beforeAfter(JointReading.nullable()).shape }))
            .describe('Those with another verdict or a margin that is 1 K off; null where it is not in that fire.'),
          parts: z.array(z.object({ part: z.string(), ...beforeAfter(PartReading.nullable()).shape })),
        }),
      )
      .describe('Heats in which something is otherwise; the others are as they were.'),
    problems: z.object({ gone: Problems, new: Problems }),
    says: z.string(),
  })
  .register(z.globalRegistry, { id: 'PlanWhatIf' });

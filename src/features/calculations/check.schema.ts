import { z } from 'zod';
import { BenchSchema, FlameSchema, HeatSchema, PlanSchema, ProtectionSchema, SupportSchema } from './plan.schema.ts';

const severity = z.enum(['none', 'note', 'caution', 'problem']);
const nullable = z.number().nullable();

/** In every check that is made; a plan checked before it was told has none. */
const told = <T extends z.ZodType>(schema: T, words: string) => schema.optional().describe(words);

const torchNumbers = z.object({ powerW: z.number(), spreadMm: z.number(), gasC: z.number() });

const EDITS =
  'Kinds: protect, unprotect, sink (moved), flame, solder, bench (torch or support), together (two of these), move_heat, move_joint, own_heat.';

const ProtectionCost = z.object({
  protection: ProtectionSchema.optional(),
  flame: FlameSchema.optional().describe('In place of a protection: what its tilt costs.'),
  extraS: nullable.describe(
    'Seconds to flow with it, less those without it; null where it flows in one case only, or in neither.',
  ),
  says: z.string(),
});

const HeatCheck = z.object({
  heat: z.number().int(),
  joints: z.array(z.string()),
  solder: z.string().nullable(),
  torch: told(torchNumbers, "What it is predicted for: the heat's own torch or the bench's, as its calibration has it."),
  support: told(SupportSchema, "The heat's own support, or the bench's."),
  calibrated: told(z.boolean(), "Whether a calibration stands behind the torch; on another torch than the bench's none does."),
  inFire: z.array(z.string()),
  flow: z.enum(['flows', 'only_just', 'does_not_flow']).describe('Whether this torch brings the solder of the heat to flow.'),
  flowC: nullable.describe('What every joint made is brought to.'),
  settlesC: nullable.describe('Where it stays when it does not flow.'),
  timeToFlowS: nullable,
  energyJ: nullable.describe('Heat of the flame into the piece up to flow: storedJ and lostJ together, within 0.5 %.'),
  storedJ: told(nullable, 'What of energyJ the piece holds at flow.'),
  lostJ: told(
    nullable,
    'What of energyJ has left the piece by then, to room, support, sinks and water; less what a hot block gives back.',
  ),
  targetSpreadK: nullable.describe('How far apart several targets are when the coldest flows; null for one.'),
  says: z.string().nullable().describe('What is to be minded about the targets themselves.'),
  earlierJoints: z.array(
    z.object({
      joint: z.string(),
      peakC: z.number(),
      uncertaintyK: z.number(),
      solidMarginK: z.number().describe('Its solidus less the peak: below 0 it softens.'),
      runMarginK: z.number().describe('Its liquidus less the peak: below 0 it runs.'),
      secondsAboveSolidus: z.number(),
      secondsAboveLiquidus: z.number(),
      verdict: z.enum(['runs', 'may_run', 'held', 'softens', 'may_soften', 'stays_solid']),
      severity,
      says: z.string(),
    }),
  ),
  parts: z.array(
    z.object({
      part: z.string(),
      peakC: z.number(),
      limitC: z.number(),
      aheadK: told(
        nullable,
        'How far it runs ahead of the target, where over 20 K: hotter than that is brought; null otherwise.',
      ),
      verdict: z.enum(['within', 'near_limit', 'over_limit']),
      severity,
      says: z.string(),
    }),
  ),
  cautions: z.array(z.string()).describe('Ids of GET /cautions.'),
  protectionCosts: z
    .array(ProtectionCost)
    .optional()
    .describe('What each protection and the tilt of the flame cost in time; absent where a heat has none.'),
  histories: z
    .array(
      z.object({
        of: z.enum(['target', 'joint', 'part']).describe('A joint being made, an earlier one, or a part.'),
        id: z.string(),
        timesS: z.array(z.number()).max(300),
        temperaturesC: z.array(z.number()),
      }),
    )
    .optional()
    .describe('Where asked for: the coldest point of each target, the hottest of the others. Straight lines are within 1 K.'),
});

export const PlanCheckReply = z
  .object({
    verdict: z.enum(['clear_to_heat', 'caution', 'problem']),
    heats: z.array(HeatCheck),
    problems: z.array(
      z.object({
        heat: z.number().int(),
        joint: z.string().nullable(),
        part: z.string().nullable(),
        rule: z.enum(['runs', 'may_run', 'softens', 'may_soften', 'held', 'over_limit', 'does_not_flow']),
        peakC: told(nullable, 'What it comes to; of a joint that does not flow, where it settles.'),
        limitC: told(nullable, 'What it may come to; of a joint that does not flow, what it has to come to.'),
        marginK: told(nullable, 'Between the two: a problem below 0, and of an earlier joint below its uncertainty.'),
        uncertaintyK: told(nullable, 'Of an earlier joint.'),
        says: z.string(),
        bestFix: z
          .object({
            change: z
              .looseObject({ kind: z.string(), plan: PlanSchema })
              .describe(`What to change, by its kind, and the plan with the change made. ${EDITS}`),
            problemsLeft: z.number().int(),
            says: z.string(),
          })
          .nullable(),
        helps: told(
          z.array(
            z.object({
              change: z
                .looseObject({ kind: z.string(), becomes: HeatSchema })
                .describe(`What to do otherwise, by its kind, and the heat with it done, as a plan takes it. ${EDITS}`),
              flow: z.enum(['flows', 'only_just']),
              timeToFlowS: z.number(),
              says: z.string(),
            }),
          ),
          'Where a heat does not flow: what was tried and brings it to flow, the gentlest first; last, what would harm something else.',
        ),
        nothingHelps: told(
          z.string().nullable(),
          'Where all that was tried is in vain, so in words, with the highest it settled at.',
        ),
      }),
    ),
    fixesCutShort: z
      .boolean()
      .describe('Edits or helps were left untried, for their number or their time: a problem without one may have one.'),
    filled: told(
      z.object({ plan: PlanSchema, added: z.number().int(), says: z.string() }),
      'Where protections were to be filled in: the plan with them, which is the one that is checked.',
    ),
    assumptions: z.object({
      torch: torchNumbers,
      support: z.string(),
      riseK: z.number(),
      calibration: BenchSchema.shape.calibration.unwrap(),
      uncalibratedHeats: told(
        z.array(z.number().int()),
        "Heats on another torch than the bench's, where that is calibrated: its calibration does not count in them.",
      ),
      antiFlowBudgetS: z.number(),
      uncertainty: z.string(),
      assumedSolder: z.array(z.object({ joint: z.string(), solidusC: z.number(), liquidusC: z.number() })),
      leavesOut: z.array(z.string()),
      deferral: z.string(),
    }),
  })
  .register(z.globalRegistry, { id: 'PlanCheck' });

export const PlanSearchReply = z
  .object({
    outcome: z.enum(['optimal', 'feasible', 'infeasible', 'unknown']),
    policy: z.enum(['stay_solid', 'do_not_run']),
    plan: PlanSchema.nullable(),
    check: PlanCheckReply.nullable(),
    proof: z
      .array(
        z.object({
          level: z.enum(['margin', 'protections', 'heats', 'grades', 'preference', 'time']),
          value: nullable.describe('Of the plan; null where there is none.'),
          bound: nullable.describe('No plan does better at this level, those before it being kept; null where nothing is known.'),
          proven: z.boolean().describe('Whether the plan is as good as the bound.'),
          heuristic: z
            .boolean()
            .describe('Whether the bound rests on a rule of thumb. None does today: of the heat model no such rule is taken.'),
        }),
      )
      .describe('What is known of each level of the objective, in their order: all six, proven or not.'),
    why: z.array(z.string()),
    alternatives: z
      .array(z.object({ policy: z.enum(['stay_solid', 'do_not_run']), plan: PlanSchema, tradeOff: z.string() }))
      .describe(
        'The best plan under the other policy, and up to three nearly as good that differ in what the hand does: what each costs and gains.',
      ),
    worthKnowing: told(z.array(z.string()), 'What is worth knowing of this piece, in sentences.'),
    conflict: z.object({ joints: z.array(z.string()), rules: z.array(z.string()), says: z.string() }).nullable(),
    relaxations: z.array(z.object({ change: z.record(z.string(), z.unknown()), says: z.string() })),
    searched: z.array(z.string()),
    stats: z.object({
      thermalRuns: z.number().int(),
      workUnits: z.number().int(),
      elapsedMs: nullable,
      stoppedBy: z.enum(['work_units', 'time', 'host']).nullable(),
    }),
  })
  .register(z.globalRegistry, { id: 'PlanSearch' });

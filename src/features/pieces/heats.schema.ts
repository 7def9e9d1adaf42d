import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';
import { ObservedTimesSchema, PlanCheckReply, PlanSchema } from '../calculations/index.ts';
import { IncidentKindSchema } from './incidents.schema.ts';
import { PhotoListed } from './photos-of.ts';

export const HeatParams = z.strictObject({ id: z.uuid() });

const HeatState = z.enum(LIFECYCLES.heat.states);
const Outcome = z.enum(['flowed', 'part_flowed', 'no_flow', 'earlier_joint_moved', 'overheated', 'part_shifted']);
const jointId = z.string().min(1).max(80);

export const HeatQuerySchema = PageQuery.extend({
  pieceId: z.uuid().optional(),
  planId: z.uuid().optional(),
  state: HeatState.optional(),
});

export const HeatMove = z.strictObject({
  ...moveFields,
  to: HeatState,
  lotId: z.uuid().optional().describe('With the move to primed: the lot the solder is taken from; none for an anneal.'),
  jointFitted: z.boolean().optional().describe('With the move to primed: the joint is clean and fitted.'),
  fluxOn: z.boolean().optional().describe('With the move to primed.'),
  flux: z
    .strictObject({ name: lineOfText(60, 'Name the flux.'), fluoride: z.enum(['no', 'yes', 'unknown']) })
    .optional()
    .describe("With the move to primed: the flux on it, where it is not the studio's own (settings, benchFlux)."),
  protectionsPlaced: z.boolean().optional().describe('With the move to primed, where the plan has protections.'),
  unknownSolder: z
    .strictObject({
      tests: lineOfText(400, 'Say which tests were made.').describe(
        'Such as "scraped bright, no grey smear; spot test for lead clear".',
      ),
      clientsYes: z.boolean().describe('The client knows what may happen at the worst, and said yes.'),
    })
    .optional()
    .describe(
      'With the move to primed, where a joint of unknown solder lies in the fire. Of cadmium no test tells: a document does.',
    ),
  cautionsRead: z
    .array(z.string().max(40))
    .max(40)
    .optional()
    .describe('Ids of the cautions read just now: all that the heat shows as due.'),
  benchId: z
    .uuid()
    .optional()
    .describe('With the move to alight: the bench it is lit at; that of the person asking, when absent.'),
  nothingFlowed: z.boolean().optional().describe('With the move from alight back to primed: a false start.'),
  seen: blockOfText(400).optional().describe('With the move to cooling: a word on what was seen.'),
  observed: ObservedTimesSchema.optional().describe(
    'With the move to cooling or from it: what the clock said, to calibrate the torch.',
  ),
  blackHeat: z.boolean().optional().describe('With the move to the pickle: it is red no more.'),
  ironOff: z.boolean().optional().describe('With the move to the pickle.'),
  ventOpen: z
    .boolean()
    .optional()
    .describe('With the moves to primed and to the pickle, where a hollow form is in the heat: its vent is open.'),
  driedThrough: z.boolean().optional().describe('With the move out of the pickle, where a hollow form is in the heat.'),
  stoneIn: z.boolean().optional().describe('With the move to the pickle, where a stone may be: it must be false.'),
  bathId: z.uuid().optional().describe('With the move to the pickle: the bath it goes into, so that what it takes is counted.'),
  bathC: fenced('pickle_bath', 'temperatureC', z.number()).optional().describe('With bathId: how warm the bath is.'),
  outcome: Outcome.optional().describe('With the move to cleared or spoilt.'),
  jointsSound: z.boolean().optional().describe('With the move to cleared: each joint was seen to be sound.'),
  earlierJointsLookedAt: z
    .boolean()
    .optional()
    .describe('With the move to cleared, where earlier joints were predicted to soften: they were looked at, and are good.'),
  usedG: fenced('incident', 'solderUsedG', z.number()).optional().describe('Solder really used; as planned when absent.'),
  flowedJoints: z
    .array(jointId)
    .max(80)
    .optional()
    .describe('With the move to spoilt: those of its joints that flowed all the same.'),
  incident: z
    .strictObject({
      kind: IncidentKindSchema,
      jointId: jointId.optional(),
      note: blockOfText(2000).optional(),
      movedJoints: z.array(jointId).max(80).optional().describe('Earlier joints that were seen to move.'),
    })
    .optional()
    .describe('With the move to spoilt: what went wrong. An incident is opened with it.'),
});

/** One tap while the flame burns. */
export const HeatSighting = z.strictObject({
  saw: z.enum(['flux_clear', 'flow']).describe('The flux turned to clear glass; the solder flashed through the joint.'),
  occurredAt: moveFields.occurredAt,
  deviceId: moveFields.deviceId,
  deviceSeq: moveFields.deviceSeq,
});

const checked = PlanCheckReply.shape.heats.element;
const planned = PlanSchema.shape.heats.unwrap().element;

export const HeatReply = z.object({
  id: z.string(),
  number: z.string().describe('As people know it: C31-014.2 H3.'),
  pieceId: z.string(),
  planId: z.string(),
  planNumber: z.number().int(),
  position: z.number().int().describe('Its place in the plan, from 1.'),
  purpose: z.enum(['solder', 'anneal']),
  state: HeatState,
  joints: z.array(z.string()),
  partsInFire: z.array(z.string()),
  product: z
    .object({
      id: z.string(),
      code: z.string(),
      name: z.string(),
      gradeWord: z.string(),
      form: z.string(),
      solidusC: z.number(),
      liquidusC: z.number(),
    })
    .nullable(),
  lot: z.object({ id: z.string(), number: z.string(), markOnMetal: z.string().nullable() }).nullable(),
  plannedG: z.number(),
  usedG: z.number().nullable().describe('What was booked when it ended; null until then.'),
  placed: z
    .array(z.object({ joint: z.string(), placedG: z.number(), chips: z.number().int() }))
    .describe('What is laid on each joint, in how many chips.'),
  flame: planned.shape.flame.unwrap().nullable(),
  protections: planned.shape.protections.unwrap(),
  torch: planned.shape.torch.unwrap().nullable().describe("Where the heat is not done with the bench's."),
  support: planned.shape.support.unwrap().nullable().describe("Where the work does not lie on the bench's."),
  expected: checked
    .pick({
      flow: true,
      flowC: true,
      settlesC: true,
      timeToFlowS: true,
      energyJ: true,
      storedJ: true,
      lostJ: true,
      torch: true,
      support: true,
      calibrated: true,
      protectionCosts: true,
      targetSpreadK: true,
      says: true,
      earlierJoints: true,
      parts: true,
    })
    .nullable()
    .describe("What the plan's check expects; null for a plan that was not checked."),
  guessFirst: z
    .array(z.string())
    .describe(
      'Earlier joints of which a student says first what they will do; until then expected tells nothing of any of them.',
    ),
  cautions: z
    .array(z.object({ id: z.string(), words: z.string(), tick: z.string(), due: z.boolean() }))
    .describe('Shown in every heat; those that are due are read and ticked before it is primed.'),
  readiness: z
    .object({
      jointFitted: z.boolean(),
      fluxOn: z.boolean(),
      protectionsPlaced: z.boolean(),
      unknownSolder: z.object({ tests: z.string(), clientsYes: z.boolean() }).optional(),
      cautionsRead: z.array(z.string()),
      at: z.string(),
    })
    .nullable(),
  tutorsYes: z
    .array(z.object({ studentId: z.string(), tutorId: z.string(), at: z.string() }))
    .describe('Students who may light it, by whose yes.'),
  flux: z
    .object({
      name: z.string(),
      fluoride: z.enum(['no', 'yes', 'unknown']),
      boraxFraction: z.number(),
      ofPaste: z.enum(['no', 'yes', 'unknown']).nullable().describe('Fluoride in the flux that a paste brings with it.'),
      mayHoldFluoride: z.boolean().describe('One of the two does, or nobody knows: caution C3 is shown.'),
    })
    .describe("As it was made ready with, else the studio's own."),
  outcome: Outcome.nullable(),
  seen: z.string().nullable(),
  observed: ObservedTimesSchema.nullable(),
  primedBy: z.string().nullable(),
  litBy: z.string().nullable(),
  benchId: z.string().nullable().describe('At which it was lit.'),
  alightAt: z.string().nullable(),
  endedAt: z.string().nullable(),
  version: z.number().int(),
  createdAt: z.string(),
  photos: z.array(PhotoListed),
  allowedMoves: z.array(z.string()),
});

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText } from '../../platform/http/text.ts';
import { PlanCheckReply, PlanSchema } from '../calculations/index.ts';
import { IncidentKindSchema } from './incidents.schema.ts';

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
  /** With the move to primed: the lot the solder is taken from; none for an anneal. */
  lotId: z.uuid().optional(),
  jointFitted: z.boolean().optional(),
  fluxOn: z.boolean().optional(),
  protectionsPlaced: z.boolean().optional(),
  /** Ids of the cautions read just now: all that the heat shows as due. */
  cautionsRead: z.array(z.string().max(40)).max(40).optional(),
  /** With the move from alight back to primed: a false start. */
  nothingFlowed: z.boolean().optional(),
  /** With the move to cooling: a word on what was seen. */
  seen: blockOfText(400).optional(),
  /** With the move to the pickle. */
  ironOff: z.boolean().optional(),
  ventOpen: z.boolean().optional(),
  stoneIn: z.boolean().optional(),
  /** With the move to cleared or spoilt. */
  outcome: Outcome.optional(),
  jointsSound: z.boolean().optional(),
  earlierJointsLookedAt: z.boolean().optional(),
  /** Solder really used; as planned when absent. */
  usedG: fenced('incident', 'solderUsedG', z.number()).optional(),
  /** With the move to spoilt: those of its joints that flowed all the same. */
  flowedJoints: z.array(jointId).max(80).optional(),
  incident: z
    .strictObject({
      kind: IncidentKindSchema,
      jointId: jointId.optional(),
      note: blockOfText(2000).optional(),
      /** Earlier joints that were seen to move. */
      movedJoints: z.array(jointId).max(80).optional(),
    })
    .optional(),
});

const checked = PlanCheckReply.shape.heats.element;
const planned = PlanSchema.shape.heats.unwrap().element;

export const HeatReply = z.object({
  id: z.string(),
  /** As people know it: C31-014.2 H3. */
  number: z.string(),
  pieceId: z.string(),
  planId: z.string(),
  planNumber: z.number().int(),
  /** Its place in the plan, from 1. */
  position: z.number().int(),
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
  usedG: z.number().nullable(),
  /** What is laid on each joint, in how many chips. */
  placed: z.array(z.object({ joint: z.string(), placedG: z.number(), chips: z.number().int() })),
  flame: planned.shape.flame.unwrap().nullable(),
  protections: planned.shape.protections.unwrap(),
  /** What the plan's check expects; null for a plan that was not checked. */
  expected: checked
    .pick({ flow: true, flowC: true, settlesC: true, timeToFlowS: true, energyJ: true, earlierJoints: true, parts: true })
    .nullable(),
  /** Shown in every heat; those that are due are read and ticked before it is primed. */
  cautions: z.array(z.object({ id: z.string(), words: z.string(), tick: z.string(), due: z.boolean() })),
  readiness: z
    .object({
      jointFitted: z.boolean(),
      fluxOn: z.boolean(),
      protectionsPlaced: z.boolean(),
      cautionsRead: z.array(z.string()),
      at: z.string(),
    })
    .nullable(),
  outcome: Outcome.nullable(),
  seen: z.string().nullable(),
  primedBy: z.string().nullable(),
  litBy: z.string().nullable(),
  alightAt: z.string().nullable(),
  endedAt: z.string().nullable(),
  version: z.number().int(),
  createdAt: z.string(),
  allowedMoves: z.array(z.string()),
});

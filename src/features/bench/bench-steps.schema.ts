import { z } from 'zod';
import { Moment } from '../../platform/http/moment.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { ProblemReply } from '../../platform/http/problem-handler.ts';
import { BenchTimeMove, NewBenchTime } from '../bench-time/index.ts';
import { HeatMove, HeatSighting, JointMove, NewGuesses, NewIncident, PieceMove } from '../pieces/index.ts';
import { Weighing } from '../stock/index.ts';
import { isShallow, TOO_DEEP } from '../../platform/http/patch-body.ts';

const key = z
  .string()
  .regex(/^[\w.:-]{8,100}$/, 'A key is 8 to 100 letters, digits, dots, colons or dashes.')
  .describe('Of this step alone: sent again with the same key and content, it gets the same answer and is done once.');

/** What of a step is confirmed, as the headers Confirm and Confirm-Reason say it of a request. */
const confirm = z
  .strictObject({ pointers: z.array(z.string().max(200)).min(1).max(40), reason: z.string().trim().min(3).max(200) })
  .optional()
  .describe('Unusual values looked at again, by their pointers in this step, and why.');

const device = {
  occurredAt: moveFields.occurredAt,
  deviceId: moveFields.deviceId,
  deviceSeq: moveFields.deviceSeq,
};

/** Each kind of step, with what it takes: as the route that does the same alone. */
export const STEPS = {
  move_heat: HeatMove.extend({ do: z.literal('move_heat'), key, confirm, heatId: z.uuid() }),
  see_in_heat: HeatSighting.extend({ do: z.literal('see_in_heat'), key, confirm, heatId: z.uuid() }),
  move_piece: PieceMove.extend({ do: z.literal('move_piece'), key, confirm, pieceId: z.uuid() }),
  move_joint: JointMove.extend({
    do: z.literal('move_joint'),
    key,
    confirm,
    pieceId: z.uuid(),
    joint: z.string().min(1).max(80),
  }),
  move_bench_time: BenchTimeMove.extend({
    do: z.literal('move_bench_time'),
    key,
    confirm,
    benchTimeId: z.uuid().optional(),
    startedBy: key.optional(),
  }).refine(({ benchTimeId, startedBy }) => (benchTimeId === undefined) !== (startedBy === undefined), {
    path: ['benchTimeId'],
    message: 'Name either the time (benchTimeId) or the key of the step that started it (startedBy).',
  }),
  start_time: NewBenchTime.extend({ do: z.literal('start_time'), key, confirm, ...device }),
  note_incident: NewIncident.extend({ do: z.literal('note_incident'), key, confirm, ...device }),
  weigh_lot: Weighing.extend({ do: z.literal('weigh_lot'), key, confirm, lotId: z.uuid(), ...device }),
  guess: NewGuesses.extend({ do: z.literal('guess'), key, confirm, planId: z.uuid(), ...device }),
  undo: z.strictObject({ do: z.literal('undo'), key, confirm, undoes: key, ...device }),
} as const;

export type StepKind = keyof typeof STEPS;
export type Step = { [Kind in StepKind]: z.infer<(typeof STEPS)[Kind]> }[StepKind];

const KINDS = Object.keys(STEPS) as [StepKind, ...StepKind[]];

/** What every step has; the rest is looked at step by step, so that one that is wrong does not hold up the others. */
export const StepSent = z
  .looseObject({ do: z.enum(KINDS), key, ...device })
  .refine(isShallow, TOO_DEEP)
  .describe(
    'With do, key, occurredAt, deviceId and deviceSeq, what the route takes that does the same alone. move_heat: heatId, and the body of POST /heats/{id}/moves. see_in_heat: heatId; POST /heats/{id}/sightings. move_piece: pieceId; POST /pieces/{id}/moves. move_joint: pieceId, joint; POST /pieces/{id}/joints/{jointId}/moves. move_bench_time: benchTimeId, or startedBy: the key of the step that started it, for a device that has not heard of its id; POST /bench-times/{id}/moves. start_time: POST /bench-times. note_incident: POST /incidents. weigh_lot: lotId; POST /solder-lots/{id}/weighings, as of when it was done. guess: planId; POST /plans/{id}/guesses. undo: undoes, the key of a step.',
  );
export type StepSent = z.infer<typeof StepSent>;

export const NewSteps = z.strictObject({
  sentAt: Moment.describe("What the device's clock says while it sends this; more than 2 min off is asked about."),
  mendClock: z.literal(true).optional().describe('The clock of the device is wrong: move the times of these steps by as much.'),
  steps: z.array(StepSent).min(1).max(200).describe('In any order: those of a device are taken by its deviceSeq.'),
});

export const StepsReply = z.object({
  answers: z
    .array(
      z.object({
        key: z.string(),
        status: z.number().int().describe('200, or the status of the problem.'),
        result: z.unknown().describe('The record after the step, as its own route shows it; null where it was not done.'),
        problem: ProblemReply.nullable().describe('What stood in the way; a conflict tells the state that holds now.'),
      }),
    )
    .describe('One a step, in the order they were sent.'),
});

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Moment } from '../../platform/http/moment.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';

export const BenchTimeParams = z.strictObject({ id: z.uuid() });

const BenchTimeState = z.enum(LIFECYCLES.bench_time.states);
const minutesByHand = fenced('bench_time', 'minutes', z.number().int());

/**
 * Exactly one target: a piece (better: one of its heats) or, with general, no piece. With stoppedAt it is a span that is
 * over; with minutesByHand a sum of minutes without a span; with neither a timer starts.
 */
export const NewBenchTime = z.strictObject({
  pieceId: z.uuid().optional().describe('The piece worked on. One of pieceId, heatId, general.'),
  heatId: z.uuid().optional().describe('Better: the heat.'),
  general: z.literal(true).optional().describe('Not on a piece.'),
  operation: lineOfText(60, 'Say what was done.').describe('Such as "filing and emery": what a price calls it.'),
  startedAt: Moment.optional().describe('Now when absent.'),
  stoppedAt: Moment.optional().describe('For work that is over; without it a timer starts, and stops the one that runs.'),
  minutesByHand: minutesByHand.optional().describe('Minutes without a span, in place of stoppedAt.'),
  note: blockOfText(500).nullable().default(null),
});

export const BenchTimeChange = z
  .strictObject({
    operation: lineOfText(60),
    startedAt: Moment,
    stoppedAt: Moment,
    minutesByHand,
    note: blockOfText(500).nullable(),
  })
  .partial();

export const BenchTimeMove = z.strictObject({
  ...moveFields,
  to: BenchTimeState,
  stoppedAt: Moment.optional().describe(
    'When the work stopped; the moment of the move when absent. A time in doubt needs it, to be agreed.',
  ),
});

/** A time of a closed month stays as it is; what was wrong with it is a time of its own. */
export const NewCorrection = z.strictObject({
  minutes: z
    .number()
    .int()
    .min(-720)
    .max(720)
    .refine((minutes) => minutes !== 0, 'No minutes change nothing.')
    .describe('More minutes, or fewer (below 0).'),
  reason: z.string().trim().min(3).max(200),
});

export const DaysQuery = z
  .strictObject({
    personId: z.uuid().optional().describe("Another's: for the owner."),
    from: z.iso.date().optional().describe("First day, in the studio's zone; where not given, six days before the last."),
    to: z.iso
      .date()
      .optional()
      .describe('Last day, included, at most 366 days after the first; where not given, six days after the first, or today.'),
  })
  .refine(({ from, to }) => !from || !to || (from <= to && Date.parse(to) - Date.parse(from) <= 366 * 86_400_000), {
    path: ['to'],
    message: 'The last day is before the first, or more than 366 days after it.',
  });

export const DaysReply = z.object({
  items: z.array(
    z.object({
      day: z.string(),
      minutes: z.number().describe('Of that day alone: a time over midnight is in both of its days.'),
      entries: z.array(z.object({ benchTimeId: z.string(), operation: z.string(), minutes: z.number() })),
    }),
  ),
});

export const BenchTimeQuery = PageQuery.extend({
  personId: z.uuid().optional(),
  pieceId: z.uuid().optional(),
  state: BenchTimeState.optional(),
});

export const BenchTimeReply = z.object({
  id: z.string(),
  personId: z.string(),
  personName: z.string(),
  pieceId: z.string().nullable(),
  pieceNumber: z.string().nullable(),
  heatId: z.string().nullable(),
  operation: z.string(),
  startedAt: z.string(),
  stoppedAt: z.string().nullable(),
  minutesByHand: z.number().int().nullable(),
  minutes: z.number().nullable().describe('Elapsed, so the same on the night the clocks change; null until it has stopped.'),
  state: BenchTimeState,
  note: z.string().nullable(),
  correctsId: z.string().nullable().describe('The time of a closed month that this one corrects.'),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

/** Starting a timer stops the one that ran, at that second, and says so. */
export const NewBenchTimeReply = BenchTimeReply.extend({
  stoppedBefore: z.object({ benchTime: BenchTimeReply, says: z.string() }).nullable(),
});

export const CurrentReply = z.object({
  running: BenchTimeReply.nullable(),
  inDoubt: z
    .array(z.object({ benchTime: BenchTimeReply, says: z.string(), suggestedStoppedAt: z.string().nullable() }))
    .describe(
      'Timers that were forgotten, each with what to ask and a time to suggest: when that person last wrote in the book.',
    ),
});

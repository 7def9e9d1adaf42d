import { z } from 'zod';
import { Money } from '../../platform/http/money.ts';
import { head } from './report-head.ts';

const count = z.number().int();

export const TimeGuessesReply = z.object({
  report: z.literal('time-guesses'),
  ...head,
  rows: z.array(
    z.object({
      operation: z.string(),
      n: count.describe('Commissions it was learned from.'),
      usualRatio: z.number().describe('Minutes taken to minutes guessed, before any factor.'),
      factorInUse: z.number(),
      accepted: z.boolean().describe('Or what a new studio starts with.'),
      eightInTen: z.number().describe('Times a guessed minute: it stays under that eight times in ten.'),
      stayedUnder: count.describe('Records that did.'),
      records: z.array(
        z.object({
          commissionId: z.string(),
          number: z.string(),
          day: z.string(),
          estimateMinutes: z.number(),
          actualMinutes: z.number(),
          ratio: z.number(),
        }),
      ),
    }),
  ),
});

export const RemeltWarningsReply = z.object({
  report: z.literal('remelt-warnings'),
  ...head,
  rise: z.object({
    inUseK: z.number(),
    supportedK: z.number(),
    suggestedK: z.number().nullable().describe('Null: the record does not say that it should be another.'),
    says: z.string(),
    steps: z.array(
      z.object({
        fromK: z.number().describe('Predicted to run by more than that many K, without any rise.'),
        toK: z.number().describe('And by that many at most.'),
        joints: count,
        remelts: count,
        least: z.number(),
        most: z.number(),
        supported: z.boolean(),
      }),
    ),
  }),
  rows: z.array(
    z.object({
      by: z.enum(['solid_margin', 'verdict']),
      band: z.string(),
      fromK: z.number().nullable(),
      toK: z.number().nullable().describe('The margin is under it.'),
      heats: count,
      joints: count.describe('Cases: joints in the fire, heat by heat.'),
      remelts: count,
      plainFraction: z.number().nullable(),
      shownFraction: z.number(),
      leastFraction: z.number(),
      mostFraction: z.number(),
      says: z.string(),
      entries: z.object({
        heatIds: z.array(z.string()),
        remelted: z.array(z.object({ heatId: z.string(), jointId: z.string() })),
      }),
    }),
  ),
});

export const LateWorkReply = z.object({
  report: z.literal('late-work'),
  ...head,
  today: z.string(),
  rows: z.array(
    z.object({
      commissionId: z.string(),
      number: z.string(),
      title: z.string(),
      state: z.string(),
      dueOn: z.string(),
      late: z.boolean().describe('Or about to be.'),
      days: count.describe('Since it was due; below 0: to go.'),
      slackMinutes: z.number(),
      finishesOn: z.string().nullable(),
      waitingFor: z.string().nullable(),
      waitingSince: z.string().nullable(),
      lastWord: z.object({ on: z.string(), what: z.string() }).nullable().describe('To the client.'),
      notes: z.array(z.string()),
      entries: z.object({ letterIds: z.array(z.string()), quoteIds: z.array(z.string()) }),
    }),
  ),
});

export const MishapsReply = z.object({
  report: z.literal('mishaps'),
  ...head,
  currency: z.string(),
  rows: z.array(
    z.object({
      kind: z.string(),
      cause: z.string().nullable().describe('Null: nobody has said yet.'),
      jointKind: z.string().nullable(),
      grade: z.string().nullable().describe('Of the solder in the joint then; else of the heat.'),
      times: count,
      fraction: z.number().describe('Of all in the period.'),
      runningFraction: z.number().describe('With those before it.'),
      open: count.describe('Not yet brought to an end.'),
      minutesLost: count,
      minutesNotNoted: count.describe('Of how many nobody has noted the minutes.'),
      solderG: z.number(),
      money: Money.nullable().describe('Shown to the owner alone.'),
      people: z
        .array(z.object({ personId: z.string(), name: z.string(), times: count }))
        .nullable()
        .describe('Who saw it; shown to the owner alone.'),
      entries: z.object({ incidentIds: z.array(z.string()) }),
    }),
  ),
});

export const NotCollectedReply = z.object({
  report: z.literal('not-collected'),
  ...head,
  today: z.string(),
  rows: z.array(
    z.object({
      pieceId: z.string(),
      number: z.string(),
      title: z.string(),
      commission: z.string(),
      readySince: z.string(),
      days: count,
      letters: count.describe('To its client since then.'),
      lastLetterOn: z.string().nullable(),
      keptAt: z.string(),
      entries: z.object({ letterIds: z.array(z.string()) }),
    }),
  ),
});

export const StudentGuessesReply = z.object({
  report: z.literal('student-guesses'),
  ...head,
  rows: z.array(
    z.object({
      personId: z.string(),
      student: z.string(),
      plans: count,
      guesses: count,
      right: count,
      rightFraction: z.number().nullable(),
      leastFraction: z.number().nullable(),
      mostFraction: z.number().nullable(),
      jointsSoldered: count.describe('For the first time, in heats they lit.'),
      firstTimeJoints: count.describe('Of those, sound at once.'),
      incidents: count,
      entries: z.object({
        planIds: z.array(z.string()),
        guessIds: z.array(z.string()),
        heatIds: z.array(z.string()),
        incidentIds: z.array(z.string()),
      }),
    }),
  ),
});

export const HallmarkPacketsReply = z.object({
  report: z.literal('hallmark-packets'),
  ...head,
  today: z.string(),
  totals: z.object({ packets: count, pieces: count, struck: count, refused: count, lost: count }),
  rows: z.array(
    z.object({
      packetId: z.string(),
      number: z.string(),
      place: z.string(),
      office: z.string(),
      state: z.string(),
      sentOn: z.string().nullable(),
      backOn: z.string().nullable(),
      days: count.nullable().describe('From sent to back, or until today.'),
      pieces: count,
      refused: count,
      costPerPiece: Money.nullable().describe(
        'Fee, post, articles and part marks: the mean of its pieces. Shown to the owner alone.',
      ),
      entries: z.object({ pieceIds: z.array(z.string()) }),
    }),
  ),
});

import { z } from 'zod';

export const DueDateQuery = z.strictObject({
  dueOn: z.iso.date().describe('The day it is wanted by.'),
  minutes: z.coerce
    .number()
    .min(0)
    .max(100_000)
    .describe('Minutes at the bench that it takes: those of an estimate, eight in ten.'),
  commissionId: z.uuid().optional().describe('The commission it is for: its solder and metal are looked at too.'),
});

export const DueDateReply = z.object({
  canBeDone: z.boolean(),
  says: z.string().describe('The answer, as somebody tells it in the shop.'),
  dueOn: z.string(),
  finishesOn: z.string().nullable(),
  slackMinutes: z.number().describe('To spare by that day; below 0: so many are missing.'),
  lateDays: z.number().int().nullable(),
  runningMinutes: z.number().describe('Of this and all that is due before it.'),
  capacityMinutes: z.number(),
  readyOn: z
    .string()
    .nullable()
    .describe('From when on all the solder and metal it needs is there; null: it is there, or not known.'),
  waits: z
    .array(
      z.object({
        what: z.string(),
        shortG: z.number(),
        until: z.string(),
        because: z.enum(['promised', 'expected', 'lead_time']),
        order: z.string().nullable(),
        overdueSince: z.string().nullable(),
      }),
    )
    .describe(
      'What is short and until when: as promised, as expected by the lead time of an order, or by the lead time if ordered today.',
    ),
  madeLate: z.array(z.object({ number: z.string(), dueOn: z.string().nullable(), lateDays: z.number().int() })),
  about: z.array(z.string()),
});

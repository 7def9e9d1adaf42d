import { z } from 'zod';

export const DueDateQuery = z.strictObject({
  dueOn: z.iso.date().describe('The day it is wanted by.'),
  minutes: z.coerce
    .number()
    .min(0)
    .max(100_000)
    .describe('Minutes at the bench that it takes: those of an estimate, eight in ten.'),
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
  madeLate: z.array(z.object({ number: z.string(), dueOn: z.string().nullable(), lateDays: z.number().int() })),
  about: z.array(z.string()),
});

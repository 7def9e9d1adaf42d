import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

export const IdParams = z.strictObject({ id: z.uuid() });

const benchFields = {
  name: lineOfText(60, 'Give the bench a name.').describe('Such as "Anvil"; no two benches have the same.'),
  personId: z.uuid().nullable().describe('Who works at it; null: nobody, so it makes nothing.'),
  minutesPerDay: fenced('person', 'benchMinutesPerDay', z.number().int())
    .nullable()
    .describe('Minutes of a day that really happen at it; null: those of its person, or the setting.'),
};

export const NewBench = z.strictObject({
  name: benchFields.name,
  personId: benchFields.personId.default(null),
  minutesPerDay: benchFields.minutesPerDay.default(null),
});

export const BenchChange = z.strictObject({ ...benchFields, active: z.boolean() }).partial();

export const BenchReply = z.object({
  id: z.string(),
  name: z.string(),
  personId: z.string().nullable(),
  minutesPerDay: z.number().int().nullable(),
  active: z.boolean(),
  version: z.number().int(),
  createdAt: z.string(),
});

const absenceFields = {
  personId: z.uuid().nullable().describe('Who is away; null: the studio is closed.'),
  firstOn: z.iso.date().describe("First and last day, both included, in the studio's zone."),
  lastOn: z.iso.date(),
  minutesPerDay: z.number().int().min(1).max(900).nullable().describe('So many minutes of each day; null: the whole day.'),
  weekly: z.boolean().describe('Only on the weekday of the first day, each week to the last: a class, an assay day.'),
  reason: lineOfText(120, 'Say why, such as "fair" or "evening class".'),
};

const inOrder = {
  path: ['lastOn'],
  message: 'The last day is before the first.',
};

export const NewAbsence = z
  .strictObject({
    ...absenceFields,
    personId: absenceFields.personId.default(null),
    minutesPerDay: absenceFields.minutesPerDay.default(null),
    weekly: absenceFields.weekly.default(false),
  })
  .refine(({ firstOn, lastOn }) => firstOn <= lastOn, inOrder);

export const AbsenceChange = z.strictObject(absenceFields).partial();

export const AbsenceQuery = PageQuery.extend({ personId: z.uuid().optional() });

export const AbsenceReply = z.object({
  id: z.string(),
  personId: z.string().nullable(),
  firstOn: z.string(),
  lastOn: z.string(),
  minutesPerDay: z.number().int().nullable(),
  weekly: z.boolean(),
  reason: z.string(),
  version: z.number().int(),
  createdAt: z.string(),
});

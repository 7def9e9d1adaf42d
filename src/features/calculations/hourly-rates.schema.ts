import { z } from 'zod';

const decimal = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "1200.00".');

export const HourlyRatesBody = z.strictObject({
  payPerYear: decimal.describe('Of one person.'),
  onCostsPerYear: decimal.describe('What comes on top of the pay.'),
  paidHoursPerYear: z.number().min(1).max(8784),
  overheadPerYear: decimal.describe('Rent, insurance, tools: whether anything is made or not.'),
  consumablesPerYear: decimal.describe('Blades, emery, polish, gas left burning: last year’s bills.'),
  people: z.number().int().min(1).max(100),
  daysPerYear: z.number().min(1).max(366),
  hoursPerDay: z.number().min(0.25).max(24),
  benchFraction: z
    .number()
    .min(0.05)
    .max(1)
    .exactOptional()
    .describe('Share of those hours that reaches jobs: 0.69 when absent, 0.5 for one who also sells and teaches.'),
});

export const HourlyRatesReply = z.object({
  benchHoursPerYear: z.number(),
  labourPerHour: z.string().describe('For the rates in the settings, as the next two.'),
  overheadPerBenchHour: z.string(),
  consumablesPerBenchHour: z.string(),
});

import { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Moment } from '../../platform/http/moment.ts';
import { lineOfText } from '../../platform/http/text.ts';

const decimal = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "1.42".');
const fraction = z.number().min(0).max(1);
const unitPrice = z.strictObject({ amount: decimal, per: z.enum(['g', 'dwt', 'ozt']) });

const ownTorch = z.strictObject({
  powerW: z.number().positive().max(20_000),
  spreadMm: z.number().min(1).max(100),
  gasC: z.number().min(800).max(3500),
});

/** Several lines, or none. */
const linesOrNone = (most: number) =>
  z
    .string()
    .normalize('NFC')
    .trim()
    .max(most)
    .regex(/^[\P{Cc}\n\t]*$/u, 'Control characters cannot be used here.');

/** The torch, support and rise that a check starts from when a plan says nothing else. */
const BenchSetting = z.strictObject({
  torch: z.union([z.enum(['micro', 'small', 'medium', 'large', 'extra_large', 'hot_point']), ownTorch]),
  torchId: z.uuid().nullable().exactOptional().describe('A torch of the book in place of the one described; null takes it out.'),
  support: z.enum(['brick', 'charcoal', 'hard_brick', 'air']),
  riseK: fenced('joint_plan', 'riseK', z.number()),
  antiFlowBudgetS: z.number().min(1).max(120),
});

/** Exactly one of the two is typed; both are always shown. */
const profit = z.union([
  z.strictObject({ marginFraction: fenced('quote_version', 'marginFraction', z.number()) }),
  z.strictObject({ markupFraction: fenced('quote_version', 'markupFraction', z.number()) }),
]);

export const SettingsBody = z.strictObject({
  studioName: z.string().trim().min(1).max(120),
  currency: z.string().refine(isCurrency, 'Use an ISO 4217 code, such as EUR.'),
  timeZone: z.string().refine(isTimeZone, 'Use an IANA time zone, such as Europe/Berlin.'),
  language: z.string().refine(isLanguage, 'Use a BCP 47 language tag, such as en or de.'),
  units: z.strictObject({
    length: z.enum(['mm', 'in', 'gauge']),
    temperature: z.enum(['C', 'F']),
    mass: z.enum(['g', 'dwt', 'ozt']),
  }),
  bench: BenchSetting,
  finePrice: z
    .strictObject({ perG: decimal, typedAt: Moment, source: z.string().trim().min(1).max(120) })
    .nullable()
    .describe('What a gram of fine silver costs, typed by a person, and when. Null until somebody types it.'),
  metalPrices: z.record(z.string(), unitPrice).describe('Price of each metal the studio buys, by its id in GET /metals.'),
  ratesPerHour: z.strictObject({ bench: decimal, desk: decimal, student: decimal }),
  overheadPerBenchHour: decimal,
  consumablesPerBenchHour: decimal,
  newStudioFactor: z.number().min(0.25).max(4).describe('Times every minute of a price, until there are records.'),
  waste: z.strictObject({ offcutFraction: fraction, filingsFraction: fraction, unrecoveredFraction: fraction }),
  scrapCredit: z
    .strictObject({
      offcutKeptFraction: fraction,
      offcutPayFraction: fraction,
      filingsKeptFraction: fraction,
      filingsPayFraction: fraction,
    })
    .nullable(),
  flux: z.strictObject({ gPerCm2: z.number().min(0).max(1), boraxFraction: fraction, pricePerG: decimal }),
  benchFlux: z
    .strictObject({ name: lineOfText(60, 'Name the flux.'), fluoride: z.enum(['no', 'yes', 'unknown']) })
    .describe(
      'The flux that heats are made ready with, where none is named: unknown counts as fluoride, until its data sheet says no.',
    ),
  pickle: z.strictObject({
    acid: z.enum(['bisulphate', 'citric', 'sulphuric']),
    volumeL: fenced('pickle_bath', 'volumeL', z.number()),
    strengthGPerL: fenced('pickle_bath', 'strengthGPerL', z.number()),
    oxideUm: z.number().min(0).max(50),
    dragOutMlPerCm2: z.number().min(0).max(1),
    copperLimitGPerL: fenced('pickle_bath', 'copperLimitGPerL', z.number()),
    usableAcidFraction: z.number().positive().max(1),
    pricePerG: decimal,
    disposalPerBath: decimal,
  }),
  gas: z.strictObject({
    fuel: z.enum(['propane', 'butane', 'acetylene', 'methane', 'hydrogen']),
    powerW: z.number().positive().max(20_000),
    efficiencyFraction: z.number().positive().max(1),
    fixedS: z.number().min(0).max(3600),
    pricePerG: decimal,
    oxygenPricePerG: decimal
      .nullable()
      .exactOptional()
      .describe('Of bought oxygen, for a torch that burns it; null takes it out: the torch burns air.'),
  }),
  contingencyFraction: fenced('quote_version', 'contingencyFraction', z.number()),
  profit,
  discountFraction: fenced('quote_version', 'discountFraction', z.number()),
  tax: z.strictObject({
    rateFraction: fenced('quote_version', 'taxRateFraction', z.number()),
    method: z.enum(['per_line', 'on_total', 'gross_rounded_up']),
    roundUpToMinor: z
      .number()
      .int()
      .min(1)
      .max(1_000_000)
      .nullable()
      .exactOptional()
      .describe('What a gross that is rounded up is a multiple of; without it, or with null, one whole unit of the currency.'),
  }),
  depositFraction: fenced('quote_version', 'depositFraction', z.number()),
  smallRun: z
    .strictObject({ learningFraction: z.number().gt(0.5).max(1), setupMinutes: fenced('quote_version', 'minutes', z.number()) })
    .describe('A run of like pieces: set up once, and after each doubling a piece takes this share of its time.'),
  quoteValidDays: z.number().int().min(1).max(180),
  finePriceMaxAgeDays: z.number().int().min(1).max(60).describe('An older fine price sends no quote.'),
  finePriceMoveFraction: fraction.describe(
    'A quote can no longer be accepted when the fine price moved by so much or more, if metal is more than the share below of the net.',
  ),
  metalShareFraction: fraction,
  silentDays: z.number().int().min(1).max(365).describe('Without an answer for so long, an offer has gone quiet.'),
  solderTrims: z
    .record(z.string().max(40), fenced('joint', 'trimFraction', z.number()))
    .describe(
      'Solder placed over what stays in the joints, by the code of its product, where a joint says none of its own; 0.3 without one. A stocktake offers them.',
    ),
  holdFactor: z.number().min(1).max(3).describe('Held for a piece, as a multiple of what the plan needs.'),
  stockCost: z
    .enum(['oldest_first', 'average'])
    .describe(
      'What an issue costs: that of the oldest grams, or the running average. One for the studio, chosen before the first use.',
    ),
  refiner: z
    .strictObject({ payFraction: fraction, feeFixed: decimal, feePerG: decimal })
    .nullable()
    .describe('What the refiner pays of fine metal, and asks for a jar. Null until somebody types it.'),
  reorder: z.strictObject({
    reviewWeeks: z.number().int().min(1).max(12),
    orderCostMinor: z.number().int().min(0).max(1_000_000),
    holdingFraction: z.number().positive().max(1),
    horizonWeeks: z.number().int().min(4).max(104),
  }),
  openWeekdays: z
    .array(z.number().int().min(1).max(7))
    .max(7)
    .refine((days) => new Set(days).size === days.length, 'Name each weekday once.')
    .describe('Days of the week on which the benches are worked, 1 for Monday to 7 for Sunday.'),
  closingTime: z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'Write the time as hours and minutes, such as "18:00".')
    .nullable()
    .describe(
      'When the studio closes, on its own clock: a timer that runs on an hour past it was forgotten. Null: after four hours alone.',
    ),
  monthLockDays: z
    .number()
    .int()
    .min(0)
    .max(60)
    .describe('So many days after its end a month is closed: its agreed times are locked.'),
  benchMinutesPerDay: fenced('person', 'benchMinutesPerDay', z.number().int()).describe(
    'Minutes of a day that really happen at one bench.',
  ),
  papers: z.strictObject({
    size: z.enum(['A4', 'letter']),
    address: linesOrNone(400).describe("Below the studio's name on every paper: where and how to reach it, its tax number."),
    payTo: linesOrNone(400).describe('Where clients pay, on bills and reminders.'),
    terms: linesOrNone(2000).describe(
      'On changes and cancelling, in the words of the studio; without any, the usual words stand.',
    ),
  }),
  sharedTablets: z
    .strictObject({ lockMinutes: z.number().int().min(1).max(240) })
    .describe('A shared tablet locks itself so many minutes after the last thing that was done at it.'),
  firstSteps: z
    .strictObject({ shown: z.boolean() })
    .describe('Whether the owner’s first page tells what a new studio does first, as far as it is not done.'),
  privateLinks: z
    .strictObject({ on: z.boolean() })
    .describe('Whether clients may see their commission by a private link. Off, no link opens.'),
  backups: z
    .strictObject({
      folder: z
        .string()
        .trim()
        .max(1000)
        .regex(/^([/\\]|[A-Za-z]:[/\\]|$)/, 'Write the whole path, such as /media/stick/hearthbook.')
        .describe('Where encrypted copies of the book go: another disk, a stick, a folder of the network. Empty: none are made.'),
      time: z
        .string()
        .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'Write the time as hours and minutes, such as "02:30".')
        .describe('When one is made, each day, on the studio’s own clock; later, if the server was off.'),
      keepDays: z.number().int().min(1).max(60).describe('The newest copy of so many days is kept,'),
      keepWeeks: z.number().int().min(0).max(104).describe('of so many weeks,'),
      keepMonths: z.number().int().min(0).max(120).describe('and of so many months.'),
    })
    .describe('Copies of the whole book, encrypted, made by the server itself.'),
  bookAddress: z
    .string()
    .max(100)
    .regex(/^(https?:\/\/[a-z0-9.:[\]-]+)?$/, 'Write it as http://192.168.1.20:3047, without a slash at its end.')
    .describe(
      'Where the studio’s own devices reach this book: in the squares of labels. Empty: as the one who prints reached it.',
    ),
});

export type Settings = z.infer<typeof SettingsBody>;

export const SettingsChange = mergePatchOf(SettingsBody);

export const SettingsReply = z.object({
  settings: SettingsBody,
  startsFrom: z.record(z.string(), z.string()).describe('Where the number a setting starts with comes from, by its name.'),
  version: z.number().int(),
});

/** The same object with every member optional, at every depth: what a JSON Merge Patch (RFC 7396) may hold. */
function mergePatchOf(schema: z.ZodObject): z.ZodObject {
  const members = Object.entries(schema.shape as Record<string, z.ZodType>).map(([name, member]): [string, z.ZodType] => [
    name,
    patchOf(member).optional(),
  ]);
  return z.strictObject(Object.fromEntries(members));
}

function patchOf(member: z.ZodType): z.ZodType {
  if (member instanceof z.ZodObject) return mergePatchOf(member);
  // In a table, null takes a line out.
  if (member instanceof z.ZodRecord) return z.record(z.string(), (member.valueType as z.ZodType).nullable());
  return member;
}

function isTimeZone(zone: string): boolean {
  try {
    return Boolean(new Intl.DateTimeFormat('en', { timeZone: zone }));
  } catch {
    return false;
  }
}

function isCurrency(code: string): boolean {
  try {
    return minorDigits(code) >= 0;
  } catch {
    return false;
  }
}

function isLanguage(tag: string): boolean {
  try {
    return /^[a-zA-Z]{2,3}(-|$)/.test(tag) && Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
}

import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { PartSchema, PricedDesignSchema, PricedJointSchema } from './design.schema.ts';

/** Parts, joints and heats that are priced at once: more would keep everybody waiting. */
export const MOST_OF_ALL_PIECES = 5000;

const id = z.string().min(1).max(60);
const decimal = z.string().regex(/^-?\d{1,9}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "1.42".');
const fraction = z.number().min(0).max(1);
const price = z.strictObject({ amount: decimal, per: z.enum(['g', 'dwt', 'ozt']) });

const MetalPriced = z.strictObject({
  id,
  densityGPerCm3: fenced('alloy', 'densityGPerCm3', z.number()),
  fineness: fenced('alloy', 'finenessFraction', z.number()),
  price,
  clientsOwn: z
    .strictObject({ handlingCharge: decimal })
    .exactOptional()
    .describe("The client's own metal, at a price of 0: its grams are followed, and its handling is charged."),
});

const SolderPriced = z.strictObject({
  id,
  densityGPerCm3: fenced('solder_product', 'densityGPerCm3', z.number()),
  smallestPieceG: z.number().min(0).max(0.1),
  metalFraction: z.number().min(0.3).max(1).exactOptional().describe('Of paste, from its data sheet; of anything else 1.'),
  silverFraction: fraction.exactOptional(),
  price,
});

const LabourLine = z.strictObject({
  operation: z.string().min(1).max(120),
  role: id,
  minutes: fenced('quote_version', 'minutes', z.number()),
  factor: z.number().min(0.25).max(4).exactOptional(),
  setupMinutes: fenced('quote_version', 'minutes', z.number()).exactOptional().describe('Done once for all pieces.'),
  run: z
    .strictObject({
      pieces: z.number().int().min(1).max(500),
      learningFraction: z.number().gt(0.5).max(1).exactOptional().describe('0.85 when absent.'),
    })
    .exactOptional()
    .describe('A run of like pieces, of which minutes is the first; each doubling takes the learning share of the time a piece.'),
});

const passThrough = {
  id,
  kind: z.enum(['stone', 'finding', 'hallmark', 'other']),
  handlingFraction: fraction,
};

const PassThroughGiven = z.union([
  z.strictObject({ ...passThrough, cost: decimal }),
  z.strictObject({
    ...passThrough,
    packet: z
      .strictObject({
        fee: decimal,
        post: decimal,
        articles: fenced('hallmark_packet', 'articles', z.number().int()),
        perArticle: decimal.exactOptional(),
        partMarks: decimal.exactOptional(),
      })
      .describe('Its share of a packet: (fee + post)/articles + per article + part marks.'),
  }),
]);

const Policy = z.strictObject({
  waste: z.strictObject({ offcutFraction: fraction, filingsFraction: fraction, unrecoveredFraction: fraction }),
  finePricePerG: decimal,
  scrapCredit: z
    .strictObject({
      offcutKeptFraction: fraction,
      offcutPayFraction: fraction,
      filingsKeptFraction: fraction,
      filingsPayFraction: fraction,
    })
    .nullable()
    .exactOptional(),
  ratesPerHour: z.record(z.string(), decimal),
  overheadPerBenchHour: decimal,
  consumablesPerBenchHour: decimal,
  contingencyFraction: fenced('quote_version', 'contingencyFraction', z.number()),
  profit: z
    .union([
      z.strictObject({ marginFraction: fenced('quote_version', 'marginFraction', z.number()) }),
      z.strictObject({ markupFraction: fenced('quote_version', 'markupFraction', z.number()) }),
    ])
    .describe('Exactly one of the two.'),
  discountFraction: fenced('quote_version', 'discountFraction', z.number()).exactOptional(),
  tax: z.strictObject({
    rateFraction: fenced('quote_version', 'taxRateFraction', z.number()),
    method: z.enum(['per_line', 'on_total', 'gross_rounded_up']),
    roundUpToMinor: z.number().int().min(1).max(1_000_000).exactOptional(),
  }),
  depositFraction: fenced('quote_version', 'depositFraction', z.number()).exactOptional(),
});

export const EstimateRequestSchema = z
  .strictObject({
    currency: z.string().regex(/^[A-Z]{3}$/, 'Use an ISO 4217 code, such as EUR.'),
    metals: z.array(MetalPriced).min(1).max(100),
    solders: z.array(SolderPriced).max(100),
    design: PricedDesignSchema.extend({
      parts: z
        .array(PartSchema.extend({ metal: id }))
        .min(1)
        .max(MOST_OF_ALL_PIECES),
      joints: z.array(PricedJointSchema).max(MOST_OF_ALL_PIECES),
    }).describe('Of all pieces together, so longer than the lists of one piece.'),
    heats: z
      .array(
        z.strictObject({
          joints: z.array(id).max(80),
          parts: z.array(id).min(1).max(200),
          peakC: z.number().min(20).max(2000),
        }),
      )
      .max(MOST_OF_ALL_PIECES),
    flux: z.strictObject({ gPerCm2: z.number().min(0).max(1), boraxFraction: fraction, pricePerG: decimal }).exactOptional(),
    pickle: z
      .strictObject({
        acid: z.enum(['bisulphate', 'citric', 'sulphuric']),
        volumeL: fenced('pickle_bath', 'volumeL', z.number()),
        strengthGPerL: fenced('pickle_bath', 'strengthGPerL', z.number()),
        oxideUm: z.number().min(0).max(50),
        dragOutMlPerCm2: z.number().min(0).max(1),
        copperLimitGPerL: fenced('pickle_bath', 'copperLimitGPerL', z.number()),
        usableAcidFraction: z.number().positive().max(1),
        pricePerG: decimal,
        disposalPerBath: decimal,
      })
      .exactOptional(),
    gas: z
      .strictObject({
        fuel: z.enum(['propane', 'butane', 'acetylene', 'methane', 'hydrogen']),
        powerW: z.number().positive().max(20_000),
        efficiency: z.number().positive().max(1),
        fixedS: z.number().min(0).max(3600),
        specificHeatJPerGK: z.number().positive().max(2),
        pricePerG: decimal,
        oxygenPricePerG: decimal.exactOptional(),
      })
      .exactOptional(),
    labour: z.array(LabourLine).max(200),
    passThrough: z.array(PassThroughGiven).max(100).exactOptional(),
    policy: Policy,
  })
  .register(z.globalRegistry, { id: 'EstimateRequest' });

const minor = z.number().int();
const line = z.object({ group: z.string(), label: z.string(), amountMinor: minor });

export const EstimateReply = z
  .object({
    recipe: z.number().int(),
    currency: z.string(),
    lines: z.array(line).describe('What it costs.'),
    sold: z
      .array(z.object({ kind: z.string(), label: z.string(), netMinor: minor, taxMinor: minor.nullable() }))
      .optional()
      .describe('What the client is charged: the lines add up to the net. Absent from versions written before it was kept.'),
    totals: z.object({
      baseMinor: minor,
      contingencyMinor: minor,
      makingCostMinor: minor,
      makingPriceMinor: minor,
      netBeforeDiscountMinor: minor,
      discountMinor: minor,
      netMinor: minor,
      taxMinor: minor,
      grossMinor: minor,
      depositMinor: minor,
      balanceMinor: minor,
      profitMinor: minor,
    }),
    steps: z.array(z.object({ key: z.string(), value: z.union([z.number(), z.string()]), unit: z.string() })),
  })
  .register(z.globalRegistry, { id: 'Estimate' });

import type { Settings } from './settings.schema.ts';

/** What a new studio starts with. Prices and tax are nobody's guess: they are empty until somebody types them. */
export const DEFAULT_SETTINGS: Settings = {
  studioName: 'Our studio',
  currency: 'EUR',
  timeZone: 'UTC',
  language: 'en',
  units: { length: 'mm', temperature: 'C', mass: 'g' },
  bench: { torch: 'medium', support: 'brick', riseK: 0, antiFlowBudgetS: 15 },
  finePrice: null,
  metalPrices: {},
  ratesPerHour: { bench: '24.00', desk: '24.00', student: '0.00' },
  overheadPerBenchHour: '16.00',
  consumablesPerBenchHour: '2.50',
  newStudioFactor: 1.25,
  waste: { offcutFraction: 0.25, filingsFraction: 0.08, unrecoveredFraction: 0.02 },
  scrapCredit: { offcutKeptFraction: 0.98, offcutPayFraction: 0.9, filingsKeptFraction: 0.85, filingsPayFraction: 0.75 },
  flux: { gPerCm2: 0.02, boraxFraction: 0.35, pricePerG: '0.03' },
  pickle: {
    acid: 'bisulphate',
    volumeL: 1.5,
    strengthGPerL: 100,
    oxideUm: 1.5,
    dragOutMlPerCm2: 0.015,
    copperLimitGPerL: 10,
    usableAcidFraction: 0.6,
    pricePerG: '0.012',
    disposalPerBath: '9.00',
  },
  gas: { fuel: 'propane', powerW: 1500, efficiencyFraction: 0.03, fixedS: 60, pricePerG: '0.004' },
  contingencyFraction: 0.05,
  profit: { marginFraction: 0.4 },
  discountFraction: 0,
  tax: { rateFraction: 0, method: 'per_line' },
  depositFraction: 0.5,
  smallRun: { learningFraction: 0.85, setupMinutes: 35 },
  quoteValidDays: 14,
  finePriceMaxAgeDays: 3,
  finePriceMoveFraction: 0.05,
  metalShareFraction: 0.05,
  silentDays: 30,
  holdFactor: 1.1,
  reorder: { reviewWeeks: 1, orderCostMinor: 1400, holdingFraction: 0.2, horizonWeeks: 52 },
  benchMinutesPerDay: 330,
};

const practice = 'common practice, no source';

/** Where each of those numbers comes from. */
export const SETTING_SOURCES: Readonly<Record<string, string>> = {
  bench:
    'torch and support: judgement, to be calibrated by the studio; rise: disputed in the trade, so 0; anti-flow budget: assumed',
  ratesPerHour: 'an example: put in your own',
  overheadPerBenchHour: 'an example: yearly overhead divided by the bench hours that reach jobs',
  consumablesPerBenchHour: 'an example: last year’s bills divided by bench hours',
  newStudioFactor: 'one trade writer’s time studies: jobs run 25 to 50 % over the guess',
  waste: practice,
  scrapCredit: practice,
  flux: practice,
  pickle:
    'oxide thickness and drag-out: assumed; copper limit: 10 g/L to start, one plant held 15; the rest: common practice, no source',
  gas: 'power and efficiency: common practice, no source; the heating value is in the recipe',
  contingencyFraction: 'usual is 5 to 10 %: common practice, no source',
  profit: 'an example: 40 % margin is 66.7 % markup',
  tax: 'empty: ask your accountant',
  depositFraction: 'half of the gross is the common term',
  smallRun: 'learning: 85 % a doubling is common practice, no source; set-up: an example, put in your own',
  quoteValidDays: 'studios write 7 to 14 days because of the metal price',
  finePriceMoveFraction: practice,
  holdFactor: practice,
  reorder: 'order cost and holding share: examples; put in your own',
  benchMinutesPerDay: 'one trade writer’s shops: 330 of 480 minutes reach the bench',
};

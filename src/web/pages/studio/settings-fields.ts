import type { ReplyOf } from '../../api/reply.ts';

export type Settings = ReplyOf<'/api/v1/settings'>['settings'];

/** How a setting is typed: a fraction as percent, an amount as the decimal it is kept as, coins in the currency's own unit. */
export type SettingKind = 'text' | 'lines' | 'number' | 'percent' | 'amount' | 'coins' | 'time' | 'tick' | 'weekdays' | 'choice';

export interface SettingField {
  path: string;
  kind: SettingKind;
  options?: readonly string[];
  /** Empty takes it out. */
  optional?: boolean;
}

/** The settings by what they are for, in the order in which a new studio comes to them. Those of OWN_PLACES have fields of their own. */
export const SETTING_SECTIONS = [
  {
    name: 'studio',
    fields: [
      { path: 'studioName', kind: 'text' },
      { path: 'currency', kind: 'text' },
      { path: 'timeZone', kind: 'text' },
      { path: 'language', kind: 'choice', options: ['en', 'de'] },
      { path: 'units.length', kind: 'choice', options: ['mm', 'in', 'gauge'] },
      { path: 'units.temperature', kind: 'choice', options: ['C', 'F'] },
      { path: 'units.mass', kind: 'choice', options: ['g', 'dwt', 'ozt'] },
      { path: 'bookAddress', kind: 'text' },
      { path: 'firstSteps.shown', kind: 'tick' },
      { path: 'backups.folder', kind: 'text' },
      { path: 'backups.time', kind: 'time' },
      { path: 'backups.keepDays', kind: 'number' },
      { path: 'backups.keepWeeks', kind: 'number' },
      { path: 'backups.keepMonths', kind: 'number' },
    ],
  },
  {
    name: 'days',
    fields: [
      { path: 'openWeekdays', kind: 'weekdays' },
      { path: 'closingTime', kind: 'time' },
      { path: 'benchMinutesPerDay', kind: 'number' },
      { path: 'monthLockDays', kind: 'number' },
      { path: 'sharedTablets.lockMinutes', kind: 'number' },
    ],
  },
  {
    name: 'rates',
    fields: [
      { path: 'ratesPerHour.bench', kind: 'amount' },
      { path: 'ratesPerHour.desk', kind: 'amount' },
      { path: 'ratesPerHour.student', kind: 'amount' },
      { path: 'overheadPerBenchHour', kind: 'amount' },
      { path: 'consumablesPerBenchHour', kind: 'amount' },
      { path: 'newStudioFactor', kind: 'number' },
      { path: 'contingencyFraction', kind: 'percent' },
      { path: 'smallRun.setupMinutes', kind: 'number' },
      { path: 'smallRun.learningFraction', kind: 'percent' },
    ],
  },
  {
    name: 'metal',
    fields: [
      { path: 'waste.offcutFraction', kind: 'percent' },
      { path: 'waste.filingsFraction', kind: 'percent' },
      { path: 'waste.unrecoveredFraction', kind: 'percent' },
      { path: 'scrapCredit.offcutKeptFraction', kind: 'percent' },
      { path: 'scrapCredit.offcutPayFraction', kind: 'percent' },
      { path: 'scrapCredit.filingsKeptFraction', kind: 'percent' },
      { path: 'scrapCredit.filingsPayFraction', kind: 'percent' },
      { path: 'refiner.payFraction', kind: 'percent' },
      { path: 'refiner.feeFixed', kind: 'amount' },
      { path: 'refiner.feePerG', kind: 'amount' },
      { path: 'finePriceMaxAgeDays', kind: 'number' },
      { path: 'finePriceMoveFraction', kind: 'percent' },
      { path: 'metalShareFraction', kind: 'percent' },
    ],
  },
  {
    name: 'offer',
    fields: [
      { path: 'discountFraction', kind: 'percent' },
      { path: 'tax.rateFraction', kind: 'percent' },
      { path: 'tax.method', kind: 'choice', options: ['per_line', 'on_total', 'gross_rounded_up'] },
      { path: 'tax.roundUpToMinor', kind: 'coins', optional: true },
      { path: 'depositFraction', kind: 'percent' },
      { path: 'quoteValidDays', kind: 'number' },
      { path: 'silentDays', kind: 'number' },
      { path: 'privateLinks.on', kind: 'tick' },
    ],
  },
  {
    name: 'papers',
    fields: [
      { path: 'papers.size', kind: 'choice', options: ['A4', 'letter'] },
      { path: 'papers.address', kind: 'lines' },
      { path: 'papers.payTo', kind: 'lines' },
      { path: 'papers.terms', kind: 'lines' },
    ],
  },
  {
    name: 'bench',
    fields: [
      { path: 'bench.torch', kind: 'choice', options: ['micro', 'small', 'medium', 'large', 'extra_large', 'hot_point'] },
      { path: 'bench.support', kind: 'choice', options: ['brick', 'charcoal', 'hard_brick', 'air'] },
      { path: 'bench.riseK', kind: 'number' },
      { path: 'bench.antiFlowBudgetS', kind: 'number' },
      { path: 'benchFlux.name', kind: 'text' },
      { path: 'benchFlux.fluoride', kind: 'choice', options: ['unknown', 'no', 'yes'] },
      { path: 'flux.gPerCm2', kind: 'number' },
      { path: 'flux.boraxFraction', kind: 'percent' },
      { path: 'flux.pricePerG', kind: 'amount' },
      { path: 'pickle.acid', kind: 'choice', options: ['bisulphate', 'citric', 'sulphuric'] },
      { path: 'pickle.volumeL', kind: 'number' },
      { path: 'pickle.strengthGPerL', kind: 'number' },
      { path: 'pickle.copperLimitGPerL', kind: 'number' },
      { path: 'pickle.usableAcidFraction', kind: 'percent' },
      { path: 'pickle.oxideUm', kind: 'number' },
      { path: 'pickle.dragOutMlPerCm2', kind: 'number' },
      { path: 'pickle.pricePerG', kind: 'amount' },
      { path: 'pickle.disposalPerBath', kind: 'amount' },
      { path: 'gas.fuel', kind: 'choice', options: ['propane', 'butane', 'acetylene', 'methane', 'hydrogen'] },
      { path: 'gas.pricePerG', kind: 'amount' },
      { path: 'gas.oxygenPricePerG', kind: 'amount', optional: true },
      { path: 'gas.powerW', kind: 'number' },
      { path: 'gas.efficiencyFraction', kind: 'percent' },
      { path: 'gas.fixedS', kind: 'number' },
    ],
  },
  {
    name: 'stock',
    fields: [
      { path: 'holdFactor', kind: 'number' },
      { path: 'stockCost', kind: 'choice', options: ['oldest_first', 'average'] },
      { path: 'reorder.reviewWeeks', kind: 'number' },
      { path: 'reorder.orderCostMinor', kind: 'coins' },
      { path: 'reorder.holdingFraction', kind: 'percent' },
      { path: 'reorder.horizonWeeks', kind: 'number' },
    ],
  },
] as const satisfies readonly { name: string; fields: readonly SettingField[] }[];

/** Settings that are not typed as one field of their section. */
export const OWN_PLACES = ['finePrice', 'metalPrices', 'profit', 'bench.torchId', 'solderTrims'] as const;

export type SettingOf = (typeof SETTING_SECTIONS)[number]['fields'][number];

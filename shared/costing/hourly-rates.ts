import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { physics, price } from './inputs.ts';

export interface HourlyRatesAsked {
  /** What a year of one person costs: pay, and what comes on top of it. */
  payPerYear: string;
  onCostsPerYear: string;
  paidHoursPerYear: number;
  /** Rent, insurance, tools: what a year costs whether anything is made or not. */
  overheadPerYear: string;
  /** Blades, emery, polish, gas left burning: last year's bills. */
  consumablesPerYear: string;
  people: number;
  daysPerYear: number;
  hoursPerDay: number;
  /** Share of those hours that reaches jobs; 0.69 when absent, 0.5 for one who also sells and teaches. */
  benchFraction?: number;
}

export interface HourlyRates {
  benchHoursPerYear: number;
  labourPerHour: string;
  overheadPerBenchHour: string;
  consumablesPerBenchHour: string;
}

/** 5.5 of 8 hours, to two places. */
const USUAL_BENCH_FRACTION = 0.69;

/**
 * What an hour has to cost for the year to come out even.
 *
 * Labour = (pay + on-costs)/paid hours; bench hours = people · days · hours · share at the bench; overhead and consumables over
 * the bench hours, since only those reach jobs.
 *
 * @returns amounts of the currency that was typed, to 2 decimals, halves away from zero
 * @throws {EngineInputError} for an amount that is no decimal, hours, days or people not above 0, or a share not above 0 to 1
 * @source a trade writer's time studies: 5.5 of a paid day of 8 hours are at the bench
 */
export function hourlyRates(asked: HourlyRatesAsked): HourlyRates {
  const { people, daysPerYear, hoursPerDay, benchFraction = USUAL_BENCH_FRACTION } = asked;
  if (!(Number.isSafeInteger(people) && people >= 1)) throw new EngineInputError('people', people, 'a whole number from 1');
  const benchHours = new Decimal(people)
    .times(physics('daysPerYear', daysPerYear, { above: 0 }))
    .times(physics('hoursPerDay', hoursPerDay, { above: 0 }))
    .times(physics('benchFraction', benchFraction, { above: 0, to: 1 }));
  const perBenchHour = (quantity: string, perYear: string) => price(quantity, perYear).div(benchHours).toFixed(2);
  return {
    benchHoursPerYear: benchHours.toDecimalPlaces(1).toNumber(),
    labourPerHour: price('payPerYear', asked.payPerYear)
      .plus(price('onCostsPerYear', asked.onCostsPerYear))
      .div(physics('paidHoursPerYear', asked.paidHoursPerYear, { above: 0 }))
      .toFixed(2),
    overheadPerBenchHour: perBenchHour('overheadPerYear', asked.overheadPerYear),
    consumablesPerBenchHour: perBenchHour('consumablesPerYear', asked.consumablesPerYear),
  };
}

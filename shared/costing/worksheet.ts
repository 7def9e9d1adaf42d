import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import type { EstimateLine, EstimateStep, LineGroup } from './estimate-request.ts';

/** Where an estimate is written down: every number of the working in order, and the lines that are added up. */
export class Worksheet {
  readonly lines: EstimateLine[] = [];
  readonly steps: EstimateStep[] = [];
  readonly minorDigits: number;

  constructor(minorDigits: number) {
    this.minorDigits = minorDigits;
  }

  /** A number that is no amount of money. */
  note(key: string, value: Decimal, unit: Exclude<EstimateStep['unit'], 'money'>): Decimal {
    this.steps.push({ key, value: value.toNumber(), unit });
    return value;
  }

  /** An amount, rounded half-up to the minor unit before it is used any further. */
  money(key: string, exact: Decimal): Decimal {
    const amount = this.round(exact);
    this.steps.push({ key, value: amount.toFixed(this.minorDigits), unit: 'money' });
    return amount;
  }

  /** An amount that is not paid as such and keeps its decimals. */
  exact(key: string, amount: Decimal): Decimal {
    this.steps.push({ key, value: amount.toNumber(), unit: 'money' });
    return amount;
  }

  line(group: LineGroup, label: string, amount: Decimal): void {
    this.lines.push({ group, label, amountMinor: this.minor(amount) });
  }

  round(exact: Decimal): Decimal {
    // Adding 0 turns a negative zero into zero.
    return exact.toDecimalPlaces(this.minorDigits, Decimal.ROUND_HALF_UP).plus(0);
  }

  minor(amount: Decimal): number {
    const minor = amount.times(new Decimal(10).pow(this.minorDigits)).toNumber() + 0;
    if (!Number.isSafeInteger(minor))
      throw new EngineInputError('amount', amount.toString(), 'small enough to count in minor units');
    return minor;
  }
}

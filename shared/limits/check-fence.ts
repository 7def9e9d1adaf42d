import { FENCES, type Fence } from './fences.ts';
import { READINGS } from './readings.ts';

export type FenceOutcome =
  | { outcome: 'ok' }
  /** ask: it passes when confirmed with a reason. perhaps: the value in the field's own unit, had it been meant in another. */
  | { outcome: 'ask' | 'refuse'; says: string; unit?: string; perhaps?: number };

/**
 * Where a number stands against the two fences of its field. A fence is inclusive: the number on it stands inside.
 *
 * Where the number would lie inside the ask fence had it been meant in another likely unit (gauge, °F, pennyweight, troy
 * ounce, percent, parts per thousand), the sentence says so with the value converted; it is never converted for anyone.
 *
 * @param field its name in JSON
 * @throws {Error} for a thing or field that has no fence in the table
 */
export function checkFence(thing: string, field: string, given: number): FenceOutcome {
  const fence = fenceOf(thing, field);
  const { refuseBelow = -Infinity, refuseAbove = Infinity } = fence;
  const { askBelow = refuseBelow, askAbove = refuseAbove } = fence;
  if (given >= askBelow && given <= askAbove) return { outcome: 'ok' };
  const refused = !(given >= refuseBelow && given <= refuseAbove);
  const range = refused ? span(refuseBelow, refuseAbove, fence) : span(askBelow, askAbove, fence);
  const readings = likelyReadings(fence, given, { from: askBelow, to: askAbove });
  const says = [
    refused ? `${fence.name} must be ${range}; you wrote ${given}.` : `${fence.name} is usually ${range}; you wrote ${given}.`,
    ...(fence.whenTooHigh !== undefined && given > askAbove ? [fence.whenTooHigh] : []),
    ...(readings.length > 0 ? [`${capital(readings.map((reading) => reading.says).join(', '))}: was that meant?`] : []),
  ].join(' ');
  return {
    outcome: refused ? 'refuse' : 'ask',
    says,
    ...(fence.unit === undefined ? {} : { unit: fence.unit }),
    ...(readings[0] === undefined ? {} : { perhaps: readings[0].value }),
  };
}

function fenceOf(thing: string, field: string): Fence {
  const things: Readonly<Record<string, Readonly<Record<string, Fence>>>> = FENCES;
  const fence = things[thing]?.[field];
  if (!fence) throw new Error(`There is no fence for ${thing}.${field}`);
  return fence;
}

function likelyReadings({ mayBe = [], unit }: Fence, given: number, ask: { from: number; to: number }) {
  if (!Number.isFinite(given)) return [];
  return mayBe.flatMap((reading) => {
    const { says, convert } = READINGS[reading];
    const converted = convert(given);
    if (converted === undefined || !(converted >= ask.from && converted <= ask.to)) return [];
    return [
      {
        value: Number(converted.toPrecision(6)),
        says: says(given, withUnit(Number(converted.toPrecision(4)), unit)),
      },
    ];
  });
}

function span(from: number, to: number, { unit }: Fence): string {
  if (to === Infinity) return `at least ${withUnit(from, unit)}`;
  if (from === -Infinity) return `at most ${withUnit(to, unit)}`;
  return `between ${from} and ${withUnit(to, unit)}`;
}

function withUnit(value: number, unit: string | undefined): string {
  if (unit === undefined) return String(value);
  return unit === '°' ? `${value}°` : `${value} ${unit}`;
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

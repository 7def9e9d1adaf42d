/**
 * Whether U, the uncertainty shown beside every margin, is as wide as our own assumptions about flame, metal and hand make it: seeded
 * draws of heats on the pieces of the demo studio. It tests U against these assumptions, not against fires.
 */

import { uncertaintyK } from '../../../shared/thermal/uncertainty.ts';
import { round } from './measure.ts';
import { showRobustMargins } from './robust-margins.ts';
import { CALIBRATED, UNCALIBRATED, draw, type Drawn, type Sample, type Spreads } from './uncertainty-draws.ts';

/** For each heat. */
const DRAWS = 50;
/** For each protection of each earlier joint. */
const PROTECTED_DRAWS = 15;

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

const uOf = ({ fallK }: Sample, calibrated: boolean): number => uncertaintyK({ flowC: fallK, peakC: 0, calibrated });

/** The growth of U that would have held this draw: U = √(15² + (κ·fall)²). */
function growthNeeded({ fallK, overK }: Sample): number {
  if (overK <= 15) return 0;
  return fallK > 0 ? Math.sqrt(overK ** 2 - 15 ** 2) / fallK : Infinity;
}

function row(what: string, samples: readonly Sample[], calibrated: boolean) {
  const share = (holds: (sample: Sample) => boolean) => round((100 * samples.filter(holds).length) / samples.length);
  const over = samples.map(({ overK }) => overK);
  const meanK = over.reduce((sum, k) => sum + k, 0) / over.length;
  return {
    what,
    samples: samples.length,
    'fall K': round(
      quantile(
        samples.map(({ fallK }) => fallK),
        0.5,
      ),
    ),
    'U K': round(
      quantile(
        samples.map((sample) => uOf(sample, calibrated)),
        0.5,
      ),
    ),
    'sd K': round(Math.sqrt(over.reduce((sum, k) => sum + (k - meanK) ** 2, 0) / over.length)),
    '5 % hotter by K': round(quantile(over, 0.95)),
    'at most U hotter %': share((sample) => sample.overK <= uOf(sample, calibrated)),
    'within U either way %': share((sample) => Math.abs(sample.overK) <= uOf(sample, calibrated)),
    'κ for 95 %': round(quantile(samples.map(growthNeeded), 0.95)),
  };
}

const BY_DISTANCE: [string, number, number][] = [
  ['up to 5 mm', 0, 5],
  ['5 to 10 mm', 5, 10],
  ['10 to 20 mm', 10, 20],
  ['over 20 mm', 20, Infinity],
];
const BY_FALL: [string, number, number][] = [
  ['hotter than the target', -Infinity, 0],
  ['0 to 15 K cooler', 0, 15],
  ['15 to 40 K cooler', 15, 40],
  ['40 to 100 K cooler', 40, 100],
  ['over 100 K cooler', 100, Infinity],
];

const countLine = (title: string, { heats, draws, reached }: Drawn): string =>
  `\n${title}: ${heats} heats, ${draws} draws, ${round((100 * reached) / draws)} % reached flow and count.`;

function show(title: string, spreads: Spreads, calibrated: boolean): void {
  const bare = draw(spreads, ['nothing'], DRAWS);
  const { samples } = bare;
  console.log(countLine(title, bare));
  const among = (of: (sample: Sample) => number, [what, from, to]: [string, number, number]) => {
    const some = samples.filter((sample) => of(sample) >= from && of(sample) < to);
    return some.length > 0 ? [row(what, some, calibrated)] : [];
  };
  console.table([
    row('all', samples, calibrated),
    ...BY_DISTANCE.flatMap((band) => among(({ awayMm }) => awayMm, band)),
    ...BY_FALL.flatMap((band) => among(({ fallK }) => fallK, band)),
  ]);
  const guarded = draw(spreads, ['tweezers', 'shield', 'tilt'], PROTECTED_DRAWS);
  console.log(countLine(`${title}, each earlier joint protected`, guarded));
  console.table(
    (['tweezers', 'shield', 'tilt'] as const).flatMap((way) => {
      const some = guarded.samples.filter(({ protectedBy }) => protectedBy === way);
      const near = some.filter(({ fallK }) => fallK < 100);
      return [row(way, some, calibrated), row(`${way}, under 100 K cooler`, near, calibrated)];
    }),
  );
}

export function run(): void {
  console.log(
    'This tests U against our own assumptions, listed below, not against fires. U is meant to hold 95 % of what runs hotter.',
  );
  console.table({ 'without a calibration': UNCALIBRATED, 'with one': CALIBRATED });
  show('Without a calibration', UNCALIBRATED, false);
  show('With a calibration of torch and person', CALIBRATED, true);
  showRobustMargins();
}

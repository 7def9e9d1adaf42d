import { HEAT_COLOURS } from '../../../../shared/materials/heat-colour.ts';
import { toFive } from '../../../../shared/thermal/to-five.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import { showDifference, showQuantity, type ShownUnits } from '../../units/shown-units.ts';
import type { MessageKey, Words } from '../../words/words.ts';

const list = (words: Words, items: readonly string[]) => new Intl.ListFormat(words.locale).format(items);
const mgOf = (g: number) => Math.round(g * 10_000) / 10;

/** The heat in one sentence, to be read in four seconds. */
export function heatWords(heat: HeatNow, words: Words): string {
  const { number, joints, product, purpose } = heat;
  if (purpose === 'anneal' || product === null) return words.say('bench.anneals', { heat: number });
  return words.say('bench.solders', { heat: number, joints: list(words, joints), solder: product.name });
}

export function lotWords(lot: { number: string; markOnMetal: string | null }, { say }: Words): string {
  return lot.markOnMetal === null
    ? say('bench.lotOf', { lot: lot.number })
    : say('bench.lotMarked', { lot: lot.number, mark: lot.markOnMetal });
}

/** What is laid on each joint; in all where there is more than one. */
export function amountWords({ placed }: HeatNow, { say, number }: Words): string[] {
  const mg = (g: number) => number(mgOf(g), 1);
  const all = placed.reduce((sum, { placedG }) => sum + placedG, 0);
  const chips = placed.reduce((sum, one) => sum + one.chips, 0);
  return [
    say('bench.amount', { chips, mg: mg(all) }),
    ...(placed.length < 2
      ? []
      : placed.map((one) => say('bench.amountOn', { joint: one.joint, chips: one.chips, mg: mg(one.placedG) }))),
  ];
}

export function fluxWords({ flux }: HeatNow, { say, percent }: Words): string {
  const known = flux.fluoride === 'yes' || flux.ofPaste === 'yes';
  return [
    flux.name,
    ...(flux.boraxFraction > 0 ? [say('bench.flux.borax', { percent: percent(flux.boraxFraction) })] : []),
    say(flux.mayHoldFluoride ? (known ? 'bench.flux.yes' : 'bench.flux.unknown') : 'bench.flux.no'),
  ].join(', ');
}

export function flameWords({ flame }: HeatNow, { say }: Words): string {
  if (flame === null) return say('bench.flame.even');
  const { tiltDeg, towards, awayFrom, aim, sweepMm } = flame;
  return [
    aim === undefined ? say('bench.flame.even') : say('bench.flame.aim', { part: aim.part }),
    ...(tiltDeg === undefined ? [] : [say('bench.flame.tilt', { degrees: tiltDeg })]),
    ...(towards === undefined ? [] : [say('bench.flame.towards', { what: towards })]),
    ...(awayFrom === undefined ? [] : [say('bench.flame.away', { what: awayFrom })]),
    ...(sweepMm === undefined ? [] : [say('bench.flame.sweep', { mm: sweepMm })]),
  ].join(', ');
}

export function protectionWords(protection: HeatNow['protections'][number], { say }: Words): string {
  if (protection.kind !== 'sink') return say(`plan.protect.${protection.kind}`, { what: protection.guards });
  const { sink, at } = protection;
  const what = 'joint' in at ? at.joint : at.part;
  return say(`plan.protect.${sink === 'tweezers' ? 'sink' : sink}`, { what });
}

/** In both scales, whatever the person reads: the bench is shared. */
export function peakWords({ peak }: HeatNow, { say, number }: Words): string | undefined {
  if (peak === null) return undefined;
  const from = HEAT_COLOURS.findLast(({ fromC }) => peak.peakC >= fromC)?.fromC ?? 0;
  const colour = say(`bench.colour.${from}` as MessageKey);
  return say('bench.peakOf', { celsius: number(peak.peakC), fahrenheit: number(peak.peakF), colour });
}

type EarlierJoint = NonNullable<HeatNow['expected']>['earlierJoints'][number];

/** Both margins, rounded as the engine's own sentences round them. */
export function marginWords(
  { solidMarginK, runMarginK, uncertaintyK, verdict }: EarlierJoint,
  words: Words,
  units: ShownUnits,
): string {
  const difference = (differenceK: number) => showDifference(words, units, toFive(Math.abs(differenceK)));
  const uncertainty = difference(uncertaintyK);
  return [
    words.say(solidMarginK >= 0 ? 'bench.solid' : 'bench.soft', { margin: difference(solidMarginK), uncertainty }),
    words.say(runMarginK >= 0 ? 'bench.notRun' : 'bench.runs', { margin: difference(runMarginK) }),
    ...(verdict === 'held' ? [words.say('bench.held')] : []),
  ].join('; ');
}

/** Why it is not to be lit, also by what this device was told before the network went. */
export function blockedWords({ danger }: HeatNow, words: Words, units: ShownUnits): string[] {
  const { say } = words;
  const known = [
    ...danger.cadmium.map(({ joint, standing }) =>
      say(standing === 'yes' ? 'bench.blocked.cadmium' : 'bench.blocked.cadmiumUnknown', { joint }),
    ),
    ...danger.limits
      .filter(({ maxC, peakC }) => peakC !== null && peakC > maxC)
      .map(({ part, maxC }) => say('bench.blocked.limit', { part, limit: showQuantity(words, units, 'temperature', maxC) })),
    ...(danger.tutorsYes ? [] : [say('bench.blocked.tutor')]),
  ];
  return known.length >= danger.blocked.length ? known : [...known, say('bench.blocked.other')];
}

/** As the table of cautions has it in the language of the page; in English where the page has no words for it. */
export function cautionWords({ id, words }: { id: string; words: string }, { named }: Words): string {
  const known = named('caution', id);
  return known === id ? words : known;
}

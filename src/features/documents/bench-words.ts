import { CAUTIONS, DEFERRAL, type CautionId } from '../../../shared/cautions/caution-table.ts';
import type { Flame, Protection } from '../../../shared/design/plan.ts';
import { HEAT_COLOURS } from '../../../shared/materials/heat-colour.ts';
import type { EarlierJoint } from '../../../shared/sequencing/plan-check-answer.ts';
import { toFive } from '../../../shared/thermal/to-five.ts';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { CAUTIONS_DE, DEFERRAL_DE } from '../../../shared/cautions/cautions-de.ts';
import type { MessageKey } from './messages/en.ts';
import type { Wording } from './wording.ts';

interface Named {
  id: string;
  name?: string;
  count?: number;
}

/** Joints as the drawing numbers them, with the name: "2 bezel"; of anything else its own id. */
export function jointNamer(joints: readonly Named[]): (id: string) => string {
  return (id) => {
    const index = joints.findIndex((joint) => isCopyOf(joint, id));
    return index < 0 ? id : `${index + 1} ${named(joints[index]!, id)}`;
  };
}

/** Parts as the maker calls them. */
export function partNamer(parts: readonly Named[]): (id: string) => string {
  return (id) => {
    const part = parts.find((one) => isCopyOf(one, id));
    return part ? named(part, id) : id;
  };
}

/** Copies (rivet.1, rivet.2) go by what they are copies of. */
function isCopyOf({ id: own, count = 1 }: Named, id: string): boolean {
  return own === id || (count > 1 && id.startsWith(`${own}.`));
}

function named({ id: own, name }: Named, id: string): string {
  return name === undefined ? id : `${name}${id.slice(own.length)}`;
}

interface Names {
  name: (joint: string) => string;
  part: (part: string) => string;
}

/** What is guarded, or leant towards, is a joint or a part. */
function either({ name, part }: Names, id: string): string {
  return name(id) === id ? part(id) : name(id);
}

export function flameWords({ say }: Wording, flame: Flame | undefined, names: Names): string {
  if (flame === undefined) return say('sheet.flame_even');
  const { tiltDeg, towards, awayFrom, aim, sweepMm } = flame;
  return [
    aim === undefined ? say('sheet.flame_even') : say('sheet.flame_aim', { part: names.part(aim.part) }),
    ...(tiltDeg === undefined ? [] : [say('sheet.flame_tilt', { degrees: tiltDeg })]),
    ...(towards === undefined ? [] : [say('sheet.flame_towards', { what: either(names, towards) })]),
    ...(awayFrom === undefined ? [] : [say('sheet.flame_away', { what: either(names, awayFrom) })]),
    ...(sweepMm === undefined ? [] : [say('sheet.flame_sweep', { mm: sweepMm })]),
  ].join(', ');
}

export function protectionWords({ say }: Wording, protection: Protection, names: Names): string {
  if (protection.kind !== 'sink') return say(`sheet.${protection.kind}`, { where: either(names, protection.guards) });
  const { at, sink } = protection;
  return say(`sheet.sink.${sink}`, { where: 'joint' in at ? names.name(at.joint) : names.part(at.part) });
}

/** To which the joint is brought, in both scales, and the colour it glows in. */
export function peakWords({ say, number }: Wording, flowC: number, seconds: number | null): string {
  const fahrenheit = convertUnit({ value: flowC, from: 'Cel', to: '[degF]' });
  const from = HEAT_COLOURS.findLast(({ fromC }) => flowC >= fromC)?.fromC ?? 'none';
  return say('sheet.peak_words', {
    celsius: `${number(flowC, 0)} °C`,
    fahrenheit: `${number(fahrenheit, 0)} °F`,
    colour: say(`colour.${from}` as MessageKey),
    seconds: number(seconds ?? 0, 0),
  });
}

/** What is predicted of an earlier joint, in steps of 5 °C. */
export function earlierWords({ say }: Wording, earlier: EarlierJoint, name: (id: string) => string): string {
  const { joint, verdict, solidMarginK, runMarginK } = earlier;
  const [solid, run] = [toFive(Math.abs(solidMarginK)), toFive(Math.abs(runMarginK))];
  return say(`sheet.earlier.${verdict}`, { joint: name(joint), solid, run });
}

export function cautionWords({ locale }: Wording, id: CautionId): string {
  return isGerman(locale) ? CAUTIONS_DE[id] : CAUTIONS.find((caution) => caution.id === id)!.words;
}

export function deferralWords({ locale }: Wording): string {
  return isGerman(locale) ? DEFERRAL_DE : DEFERRAL;
}

function isGerman(locale: string): boolean {
  return locale.toLowerCase().split('-')[0] === 'de';
}

import type { Flame, Protection, SinkKind } from '../../../shared/design/plan.ts';
import type { HeatNow } from './bench-now.schema.ts';

type Heat = Pick<
  HeatNow,
  'guessFirst' | 'number' | 'joints' | 'purpose' | 'product' | 'lot' | 'placed' | 'partsInFire' | 'state' | 'allowedMoves'
>;

/** The heat in one sentence, as somebody reads it in four seconds. */
export function heatSays({ number, joints, purpose, product, lot, placed, partsInFire }: Heat): string {
  const inFire = `${partsInFire.join(', ')} in the fire`;
  if (purpose === 'anneal' || product === null) return `${number}: anneal, with ${inFire}`;
  const chips = placed.reduce((sum, each) => sum + each.chips, 0);
  const mg = Math.round(placed.reduce((sum, { placedG }) => sum + placedG, 0) * 10_000) / 10;
  const pieces = chips === 1 ? '1 piece' : `${chips} pieces`;
  const made = joints.join(' and ');
  const { name } = product;
  if (lot === null) return `${number}: ${made} with ${name}, ${pieces}, ${mg} mg in all, with ${inFire}`;
  const { number: of, markOnMetal: mark } = lot;
  return mark === null
    ? `${number}: ${made} with ${name}, lot ${of}, ${pieces}, ${mg} mg in all, with ${inFire}`
    : `${number}: ${made} with ${name}, lot ${of} marked ${mark}, ${pieces}, ${mg} mg in all, with ${inFire}`;
}

const NEXT: Readonly<Record<string, { to: HeatNow['state']; says: string }>> = {
  laid_out: { to: 'primed', says: 'Ready it: joint fitted, flux on, solder placed, protections in place, cautions read' },
  primed: { to: 'alight', says: 'Light it' },
  alight: { to: 'cooling', says: 'Flame off when it flows, and say in a word what was seen' },
  cooling: { to: 'in_pickle', says: 'Wait for black heat, take the iron off, then pickle' },
  in_pickle: { to: 'looking', says: 'Rinse, dry, look' },
  looking: { to: 'cleared', says: 'Say what came of it' },
};

export function nextStepOf({ state, allowedMoves, guessFirst }: Heat): { to: HeatNow['state']; says: string } | null {
  const next = NEXT[state];
  if (!next || !allowedMoves.includes(next.to)) return null;
  if (guessFirst.length === 0) return next;
  return { ...next, says: `Guess first what ${guessFirst.join(', ')} will do, each: stay solid, soften or run` };
}

/** The flux, and what it may give off. */
export function fluxSays({ name, boraxFraction, fluoride, ofPaste, mayHoldFluoride }: Omit<HeatNow['flux'], 'says'>): string {
  const flux = boraxFraction > 0 ? `${name}, ${Math.round(boraxFraction * 100)} % borax` : name;
  const known = fluoride === 'yes' || ofPaste === 'yes';
  const gives = !mayHoldFluoride
    ? 'no fluoride in it, by its data sheet'
    : known
      ? 'it holds fluoride: extraction on'
      : 'it may hold fluoride, nobody has said that it does not: extraction on';
  return `${flux}; ${gives}`;
}

/** Where the flame goes and how it is held. */
export function flameSays(flame: Flame | null): string {
  if (flame === null) return 'Heat the whole evenly, the joint last; move the flame all the time';
  const { tiltDeg, towards, awayFrom, aim, sweepMm } = flame;
  return [
    aim === undefined ? 'Heat the whole evenly, the joint last' : `Point the flame at ${aim.part}`,
    ...(tiltDeg === undefined ? [] : [`tilted by ${tiltDeg}°`]),
    ...(towards === undefined ? [] : [`towards ${towards}`]),
    ...(awayFrom === undefined ? [] : [`away from ${awayFrom}`]),
    ...(sweepMm === undefined ? [] : [`played over ${sweepMm} mm`]),
  ].join(', ');
}

const SINKS: Readonly<Record<SinkKind, (where: string) => string>> = {
  tweezers: (where) => `Steel tweezers on ${where}`,
  heavy_clamp: (where) => `A heavy clamp on ${where}`,
  wet_pack: (where) => `A wet pack on ${where}`,
};

/** What is put in place before the flame, and whether it is iron, which comes off before the pickle. */
export function protectionSays(protection: Protection): HeatNow['toPlace'][number] {
  switch (protection.kind) {
    case 'sink': {
      const { sink, at } = protection;
      const where = 'joint' in at ? `joint ${at.joint}` : at.part;
      const iron = sink !== 'wet_pack';
      return { says: SINKS[sink](where), iron, removeBefore: iron ? 'pickle' : 'nothing' };
    }
    case 'shield':
      return { says: `Shield paste on ${protection.guards}`, iron: false, removeBefore: 'nothing' };
    case 'anti_flow':
      return { says: `Anti-flow on ${protection.guards}`, iron: false, removeBefore: 'nothing' };
    default:
      return protection satisfies never;
  }
}

import type { Flame, Protection } from '../../../shared/design/plan.ts';
import type { HeatNow } from './bench-now.schema.ts';

type Heat = Pick<
  HeatNow,
  'number' | 'joints' | 'purpose' | 'product' | 'lot' | 'placed' | 'partsInFire' | 'state' | 'allowedMoves'
>;

/** The heat in one sentence, as somebody reads it in four seconds. */
export function heatSays({ number, joints, purpose, product, lot, placed, partsInFire }: Heat): string {
  const inFire = `${partsInFire.join(', ')} in the fire`;
  if (purpose === 'anneal' || product === null) return `${number}: anneal, with ${inFire}`;
  const chips = placed.reduce((sum, each) => sum + each.chips, 0);
  const mg = Math.round(placed.reduce((sum, { placedG }) => sum + placedG, 0) * 10_000) / 10;
  const from = lot === null ? '' : `, lot ${lot.number}${lot.markOnMetal === null ? '' : ` marked ${lot.markOnMetal}`}`;
  return `${number}: ${joints.join(' and ')} with ${product.name}${from}, ${chips} ${chips === 1 ? 'piece' : 'pieces'}, ${mg} mg in all, with ${inFire}`;
}

const NEXT: Readonly<Record<string, { to: HeatNow['state']; says: string }>> = {
  laid_out: { to: 'primed', says: 'Ready it: joint fitted, flux on, solder placed, protections in place, cautions read' },
  primed: { to: 'alight', says: 'Light it' },
  alight: { to: 'cooling', says: 'Flame off when it flows, and say in a word what was seen' },
  cooling: { to: 'in_pickle', says: 'Wait for black heat, take the iron off, then pickle' },
  in_pickle: { to: 'looking', says: 'Rinse, dry, look' },
  looking: { to: 'cleared', says: 'Say what came of it' },
};

export function nextStepOf({ state, allowedMoves }: Heat): { to: HeatNow['state']; says: string } | null {
  const next = NEXT[state];
  return next && allowedMoves.includes(next.to) ? next : null;
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

const SINKS = { tweezers: 'Steel tweezers', heavy_clamp: 'A heavy clamp', wet_pack: 'A wet pack' } as const;

/** What is put in place before the flame, and whether it is iron, which comes off before the pickle. */
export function protectionSays(protection: Protection): HeatNow['toPlace'][number] {
  switch (protection.kind) {
    case 'sink': {
      const { sink, at } = protection;
      const where = 'joint' in at ? `joint ${at.joint}` : at.part;
      const iron = sink !== 'wet_pack';
      return { says: `${SINKS[sink]} on ${where}`, iron, removeBefore: iron ? 'pickle' : 'nothing' };
    }
    case 'shield':
      return { says: `Shield paste on ${protection.guards}`, iron: false, removeBefore: 'nothing' };
    case 'anti_flow':
      return { says: `Anti-flow on ${protection.guards}`, iron: false, removeBefore: 'nothing' };
    default:
      return protection satisfies never;
  }
}

/** What else may be done in a heat that does not flow, one thing at a time and two together, the gentlest first. */

import { formFinder, withOwnSizes } from '../design/own-sizes.ts';
import type { Flame, Heat, Protection, Support, TorchPreset } from '../design/plan.ts';
import { pieceWeight } from '../forms/piece-weight.ts';
import { benchOfHeat, TORCHES, torchOf } from '../thermal/torch.ts';
import type { CheckContext } from './heat-question.ts';
import type { PlanEdit } from './plan-check-answer.ts';
import { fireOf } from './piece-graph.ts';
import { sinkMoves } from './sink-moves.ts';

export interface FlowTry {
  edit: PlanEdit;
  heat: Heat;
  /** What is done, to stand before "heat 2" or after "with". */
  says: string;
}

/** Tries that are one another's next step: once one flows, and harms nothing, the rest need not be tried. */
export type FlowTries = readonly FlowTry[];

/** A joint of this length is worth playing the flame along. */
const LONG_JOINT_MM = 10;
const SWEEPS_MM = [5, 15] as const;
/** The hot point is for small work: in metal of more than this it warms one spot alone. */
const HOT_POINT_MOST_G = 5;
/** Supports from the one that takes most heat to the one that takes least. */
const WARMER: Readonly<Record<Support, readonly Support[]>> = {
  air: ['brick', 'charcoal'],
  hard_brick: ['brick', 'charcoal'],
  brick: ['charcoal'],
  charcoal: [],
};
const SUPPORT_WORDS: Readonly<Record<Support, string>> = {
  air: 'the work hung in the air',
  hard_brick: 'hard brick under the work',
  brick: 'soft brick under the work',
  charcoal: 'charcoal under the work',
};
const words = (name: string): string => name.replaceAll('_', ' ');

interface Asked {
  context: CheckContext;
  /** From 1. */
  number: number;
  heat: Heat;
  /** Joints made before it. */
  made: readonly string[];
}

/**
 * One thing at a time: the flame upright, aimed at the joint itself, played along a long seam; a sink moved farther away; each sink
 * or shield away, then all with the tilt; a support that takes less heat; each more powerful torch, for small work the hot point.
 */
export function singleTries(asked: Asked): FlowTries[] {
  const supports = supportTries(asked);
  return [
    ...[...flameTries(asked), ...sweepTries(asked), ...sinkTries(asked), ...bareTries(asked)].map((each) => [each]),
    supports,
    torchTries(asked),
  ];
}

/** Two things together: the warmest support, or all protections away, or the flame played wide, each with each, and with each torch. */
export function pairTries(asked: Asked): FlowTries[] {
  const [support, bare, sweep] = [supportTries(asked).at(-1), bareTries(asked).at(-1), sweepTries(asked).at(-1)];
  // The flame played wide comes second, so that taking a tilt away does not take it along.
  const gentle = [bare, support, sweep].flatMap((each) => (each ? [each] : []));
  const torches = torchTries(asked);
  const two = gentle.flatMap((a, i) => gentle.slice(i + 1).map((b) => [together(asked, a, b)]));
  return [...two, ...gentle.map((a) => torches.map((torch) => together(asked, a, torch)))];
}

/** Both edits made in one heat; where both change the same of it, the second stands. */
function together({ number, heat }: Asked, a: FlowTry, b: FlowTry): FlowTry {
  const changed = (Object.keys({ ...heat, ...b.heat }) as (keyof Heat)[]).filter((key) => b.heat[key] !== heat[key]);
  const both: Heat = { ...a.heat };
  for (const key of changed) {
    if (b.heat[key] === undefined) delete both[key];
    else Object.assign(both, { [key]: b.heat[key] });
  }
  return { edit: { kind: 'together', heat: number, edits: [a.edit, b.edit] }, heat: both, says: `${a.says} and ${b.says}` };
}

function withFlame({ number, heat }: Asked, flame: Flame | null, says: string): FlowTry {
  const { flame: _flame, ...rest } = heat;
  const isPlain = flame === null || Object.keys(flame).length === 0;
  return {
    edit: { kind: 'flame', heat: number, flame: isPlain ? null : flame },
    heat: isPlain ? rest : { ...rest, flame },
    says,
  };
}

const isTilted = ({ tiltDeg = 0 }: Flame): boolean => tiltDeg > 0;

function upright({ tiltDeg: _tilt, towards: _towards, awayFrom: _away, ...flame }: Flame): Flame {
  return flame;
}

function flameTries(asked: Asked): FlowTry[] {
  const { context, heat } = asked;
  const { flame } = heat;
  const tries: FlowTry[] = [];
  if (flame && isTilted(flame)) tries.push(withFlame(asked, upright(flame), 'the flame upright'));
  if (flame?.aim) tries.push(withFlame(asked, null, 'the flame aimed at the joint, upright'));
  const joint = heat.joints.length === 1 ? context.design.joints.find(({ id }) => id === heat.joints[0]) : undefined;
  for (const place of joint?.between ?? []) {
    const at = `at ${joint!.id} itself, on ${place.part}`;
    const says = flame && isTilted(flame) ? `the flame upright and aimed ${at}` : `the flame aimed ${at}`;
    tries.push(withFlame(asked, { aim: place }, says));
  }
  return tries;
}

function sweepTries(asked: Asked): FlowTry[] {
  const { context, heat } = asked;
  const { parts, joints } = context.design;
  const formOf = formFinder(parts);
  const longMm = Math.max(
    ...joints
      .filter(({ id }) => heat.joints.includes(id))
      .map((joint) => {
        const sized = withOwnSizes(joint, formOf);
        if (sized.kind === 'seam' || sized.kind === 'tee') return sized.lengthMm;
        if (sized.kind === 'butt' || sized.kind === 'lap') return sized.widthMm;
        return sized.kind === 'loop_base' ? Math.PI * (sized.insideDiameterMm ?? 0) : 0;
      }),
  );
  const had = heat.flame?.sweepMm ?? 0;
  if (longMm < LONG_JOINT_MM) return [];
  return SWEEPS_MM.filter((sweepMm) => sweepMm > had).map((sweepMm) =>
    withFlame(asked, { sweepMm }, `the flame played along the joint, ${sweepMm} mm to each side`),
  );
}

function sinkTries(asked: Asked): FlowTry[] {
  const { context, number, heat, made } = asked;
  const { protections = [] } = heat;
  const fire = { ...context, made: fireOf(context.design, made, heat.joints).made, targets: heat.joints };
  return protections.flatMap((sink, k) => {
    if (sink.kind !== 'sink') return [];
    return sinkMoves(fire, sink.at).map(({ to, where, fartherMm }): FlowTry => ({
      edit: { kind: 'sink', heat: number, sink, to },
      heat: { ...heat, protections: protections.map((each, i) => (i === k ? { ...sink, at: to } : each)) },
      says: `the ${words(sink.sink)} at ${where}, ${Math.round(fartherMm)} mm farther away`,
    }));
  });
}

function without(heat: Heat, away: readonly Protection[]): Heat {
  const { protections = [], ...rest } = heat;
  const left = protections.filter((each) => !away.includes(each));
  return left.length > 0 ? { ...rest, protections: left } : rest;
}

/** A protection as people name it. */
export function protectionWords(protection: Protection): string {
  if (protection.kind === 'sink') {
    const { at } = protection;
    const sink = words(protection.sink);
    return 'joint' in at ? `the ${sink} at ${at.joint}` : `the ${sink} on ${at.part}`;
  }
  return protection.kind === 'shield' ? `the shield before ${protection.guards}` : `the anti-flow on ${protection.guards}`;
}

/** Anti-flow changes no temperature, so it stays. */
function bareTries({ number, heat }: Asked): FlowTry[] {
  const thermal = (heat.protections ?? []).filter(({ kind }) => kind !== 'anti_flow');
  const tries = thermal.map((each): FlowTry => ({
    edit: { kind: 'unprotect', heat: number, protections: [each] },
    heat: without(heat, [each]),
    says: `${protectionWords(each)} away`,
  }));
  const tilted = heat.flame && isTilted(heat.flame);
  if (thermal.length + (tilted ? 1 : 0) < 2) return tries;
  const { flame, ...bare } = without(heat, thermal);
  const left = flame && upright(flame);
  const all: FlowTry = {
    edit: { kind: 'unprotect', heat: number, protections: thermal, ...(tilted ? { upright: true as const } : {}) },
    heat: left && Object.keys(left).length > 0 ? { ...bare, flame: left } : bare,
    says: tilted ? 'all sinks and shields away and the flame upright' : 'all sinks and shields away',
  };
  return [...tries, all];
}

function supportTries({ context, number, heat }: Asked): FlowTry[] {
  return WARMER[benchOfHeat(context.bench, heat).support].map((support) => ({
    edit: { kind: 'bench', heats: [number], support },
    heat: { ...heat, support },
    says: SUPPORT_WORDS[support],
  }));
}

export const TORCH_WORDS: Readonly<Record<TorchPreset, string>> = {
  micro: 'the micro torch',
  small: 'the small torch',
  medium: 'the medium torch',
  large: 'the large torch',
  extra_large: 'the extra large torch',
  hot_point: 'a hot point',
};

function torchTries({ context, number, heat, made }: Asked): FlowTry[] {
  const present = torchOf(benchOfHeat(context.bench, heat));
  const powerOfW = (torch: TorchPreset): number => torchOf(benchOfHeat(context.bench, { torch })).powerW;
  const inFire = new Set(fireOf(context.design, made, heat.joints).parts);
  const { totalG } = pieceWeight({ parts: context.design.parts.filter(({ id }) => inFire.has(id)) });
  return (Object.keys(TORCHES) as TorchPreset[])
    .filter((torch) =>
      torch === 'hot_point'
        ? totalG <= HOT_POINT_MOST_G && present.gasC < TORCHES.hot_point.gasC
        : powerOfW(torch) > present.powerW,
    )
    .sort((a, b) => powerOfW(a) - powerOfW(b))
    .map((torch) => ({
      edit: { kind: 'bench', heats: [number], torch },
      heat: { ...heat, torch },
      says: TORCH_WORDS[torch],
    }));
}

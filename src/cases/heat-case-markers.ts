/** Cases with markers, in the short keys of their file's legend, as questions to the heat model. */

import type { Design, Form, Joint, Part, Place } from '../../shared/design/design.ts';
import type { Bench, Flame, OwnTorch, Protection, SinkKind, Support, TorchPreset } from '../../shared/design/plan.ts';
import { flowTemperatureC } from '../../shared/thermal/flow-temperature.ts';
import { positionOf } from '../../shared/thermal/grid-points.ts';
import { playHeat } from '../../shared/thermal/heat-control.ts';
import { secondsAbove } from '../../shared/thermal/heat-run.ts';
import type { HeatQuestion } from '../../shared/thermal/heat-run.ts';
import { layHeat, lightHeat } from '../../shared/thermal/heat-setup.ts';
import { partIndex } from '../../shared/thermal/piece-model.ts';
import { pieceWeights } from '../../shared/thermal/piece-network.ts';
import { createProbes, readProbe } from '../../shared/thermal/probes.ts';
import { heatProgram } from '../../shared/thermal/simulate-heat.ts';

type Spot = [string, number | [number, number]];

interface CasePart {
  form: 'bar' | 'ring' | 'plate' | 'disc' | 'band' | 'ball' | 'lump';
  alloy?: string;
  contactFrac?: number;
  seamless?: boolean;
  [size: string]: unknown;
}

interface CaseJoint {
  pairs?: { a: Spot; b: Spot }[];
  close?: string;
  area: number;
  grade?: string;
}

export interface MarkerCase {
  id: string;
  piece: { parts: Record<string, CasePart>; joints: Record<string, CaseJoint> };
  scenario: {
    target: string | string[];
    done?: string[];
    torch: TorchPreset | { P: number; sigma: number; Tg: number };
    aim?: Spot;
    markers?: Record<string, Spot>;
    supportAll?: 'air';
    block?: Support;
    blockLayers?: number;
    sweep?: number;
    tiltDeg?: number;
    tiltSign?: number;
    tiltToward?: Spot;
    sinks?: { at: Spot; type: SinkKind }[];
    approachRate?: number;
  };
  grades: string[];
}

const KNOWN = new Set(
  'target done torch aim markers supportAll block blockLayers sweep tiltDeg tiltSign tiltToward sinks approachRate'.split(' '),
);
const METALS: Record<string, string> = { sterling: 'sterling-925', fine: 'fine-silver-999', stainless: 'stainless-steel' };
/** Layers of the block in a case that does not say. */
const USUAL_LAYERS = 2;

function formOf(of: CasePart): Form {
  const size = of as unknown as Record<string, number>;
  const { L, d, w, t, od, id, D, h, dia, mass, area } = size;
  switch (of.form) {
    case 'bar':
      if (d !== undefined) return { kind: 'round_wire', lengthMm: L!, diameterMm: d };
      if (od !== undefined) return { kind: 'tube', lengthMm: L!, outsideDiameterMm: od, insideDiameterMm: id! };
      return { kind: 'bar', lengthMm: L!, widthMm: w!, thicknessMm: t! };
    case 'ring':
      if (d !== undefined) return { kind: 'wire_ring', insideDiameterMm: D! - d, diameterMm: d };
      // A bar closed on itself whichever way it stands: turned so that it counts as low.
      return { kind: 'band', insideDiameterMm: D! - Math.max(w!, t!), heightMm: Math.min(w!, t!), thicknessMm: Math.max(w!, t!) };
    case 'plate':
      return { kind: 'sheet', lengthMm: w!, widthMm: h!, thicknessMm: t! };
    case 'disc':
      return { kind: 'disc', diameterMm: dia!, thicknessMm: t! };
    case 'band':
      return { kind: 'band', insideDiameterMm: D! - t!, heightMm: h!, thicknessMm: t! };
    case 'ball':
      return { kind: 'ball', diameterMm: d! };
    case 'lump':
      return { kind: 'weighed', massG: mass!, areaMm2: area! };
  }
}

function placeOf(parts: Record<string, CasePart>, [part, at]: Spot): Place {
  const of = parts[part]!;
  if (typeof at === 'number') return { part, alongMm: at };
  const [x, y] = at;
  if (of.form === 'band') return { part, alongMm: x, acrossMm: y };
  // Discs are counted from the corner of their square here.
  const cornerMm = of.form === 'disc' ? (Math.sqrt(Math.PI) / 4) * (of['dia'] as number) : 0;
  return { part, xMm: x - cornerMm, yMm: y - cornerMm };
}

/** A joint of several pairs is as many spots, each with its share of the area. */
function jointsOf(id: string, of: CaseJoint, parts: Record<string, CasePart>): Joint[] {
  if (of.close !== undefined) return [{ id, kind: 'butt', closes: of.close, widthMm: of.area, thicknessMm: 1, gapMm: 0 }];
  const pairs = of.pairs!;
  return pairs.map(({ a, b }, p) => ({
    id: p === 0 ? id : `${id}#${p + 1}`,
    kind: 'butt',
    between: [placeOf(parts, a), placeOf(parts, b)],
    widthMm: of.area / pairs.length,
    thicknessMm: 1,
    gapMm: 0,
  }));
}

export interface MarkerAnswer {
  grade: string;
  reached: boolean;
  timeToFlowS: number | null;
  settlesC: number | null;
  energyJ: number | null;
  markersAtFlow: Record<string, number>;
  peakC: Record<string, number>;
  secondsAboveSolidus: Record<string, number>;
}

/** Answers a case for each of its grades, from one heat. Throws for a key of the scenario that has no counterpart. */
export function solveMarkers(of: MarkerCase, grades: Record<string, { solidus: number; liquidus: number }>): MarkerAnswer[] {
  const { piece, scenario } = of;
  for (const key of Object.keys(scenario))
    if (!KNOWN.has(key)) throw new Error(`Case ${of.id}: scenario key ${key} has no counterpart`);
  const parts = Object.entries(piece.parts).map(([id, part]): Part => {
    const single: Part = { id, metal: METALS[part.alloy ?? 'sterling'] ?? part.alloy!, form: formOf(part) };
    return part.contactFrac === undefined ? single : { ...single, supportContactFraction: part.contactFrac };
  });
  const expanded = Object.fromEntries(Object.entries(piece.joints).map(([id, joint]) => [id, jointsOf(id, joint, piece.parts)]));
  const design: Design = { parts, joints: Object.values(expanded).flat() };
  const idsOf = (ids: readonly string[]) => ids.flatMap((id) => expanded[id]!.map((joint) => joint.id));

  const flame: Flame = {};
  if (scenario.aim) flame.aim = placeOf(piece.parts, scenario.aim);
  if (scenario.sweep) flame.sweepMm = scenario.sweep;
  let lean: Joint | null = null;
  if (scenario.tiltDeg && scenario.tiltToward) {
    // The flame leans to a joint: one of no area to speak of stands at the spot, made, on a grain of dust.
    const place = placeOf(piece.parts, scenario.tiltToward);
    lean = { id: 'lean', kind: 'butt', between: [place, { part: 'dust' }], widthMm: 1e-6, thicknessMm: 1, gapMm: 0 };
    flame.tiltDeg = scenario.tiltDeg;
    if ((scenario.tiltSign ?? 1) < 0) flame.awayFrom = 'lean';
    else flame.towards = 'lean';
  }
  const torch: TorchPreset | OwnTorch =
    typeof scenario.torch === 'string'
      ? scenario.torch
      : { powerW: scenario.torch.P, spreadMm: scenario.torch.sigma, gasC: scenario.torch.Tg };
  const support: Bench['support'] = scenario.supportAll ?? scenario.block ?? 'brick';
  const protections = (scenario.sinks ?? []).map(({ at, type }): Protection => ({
    kind: 'sink',
    sink: type,
    at: placeOf(piece.parts, at),
  }));
  const dust: Part = { id: 'dust', metal: 'sterling-925', form: { kind: 'weighed', massG: 1e-6, areaMm2: 1e-9 } };
  const question: HeatQuestion = {
    design: lean ? { parts: [...parts, dust], joints: [...design.joints, lean] } : design,
    bench: { torch, support },
    targets: idsOf([scenario.target].flat()),
    made: [...idsOf(scenario.done ?? []), ...(lean ? [lean.id] : [])],
    solders: of.grades.map((id) => ({ id, liquidusC: grades[id]!.liquidus })),
    flame,
    protections,
  };
  const laid = layHeat(question);
  const lit = lightHeat(laid, support !== 'air' && (scenario.blockLayers ?? USUAL_LAYERS) > 0);
  const program = heatProgram(
    laid,
    lit,
    laid.fields.map(() => 1),
  );
  if (scenario.approachRate !== undefined) program.approachKPerS = scenario.approachRate;
  const outcome = playHeat(program);
  const markers = Object.entries(scenario.markers ?? {}).map(([name, spot]) => {
    const part = partIndex(laid.piece.parts, spot[0]);
    const { form, grid } = laid.piece.parts[part]!;
    return [name, pieceWeights(laid.piece, { part, position: positionOf(form, grid, placeOf(piece.parts, spot)) })] as const;
  });
  const probes = createProbes(markers.map(([, weights]) => weights));
  const lowestSolidusC = Math.min(...laid.piece.parts.map(({ solidusC }) => solidusC));
  const earlier = laid.piece.joints.map(({ id }) => id).filter((id) => !question.targets.includes(id));
  return of.grades.map((grade): MarkerAnswer => {
    const flowC = flowTemperatureC(grades[grade]!.liquidus, lowestSolidusC);
    const reached = outcome.flows[program.flowTemperaturesC.indexOf(flowC)];
    const event = reached ?? outcome.end;
    const watched = earlier.flatMap((id, w) => {
      const madeWith = piece.joints[id]?.grade;
      return madeWith === undefined ? [] : [[id, event.watched[w]!, grades[madeWith]!.solidus] as const];
    });
    return {
      grade,
      reached: reached !== undefined,
      timeToFlowS: reached?.timeS ?? null,
      settlesC: reached ? null : outcome.settlesC,
      energyJ: reached?.energyJ ?? null,
      markersAtFlow: Object.fromEntries(markers.map(([name], m) => [name, readProbe(probes, m, event.temperaturesC)])),
      peakC: Object.fromEntries(watched.map(([id, { peakC }]) => [id, peakC])),
      secondsAboveSolidus: Object.fromEntries(
        watched.map(([id, { history }, solidusC]) => [id, secondsAbove(history, solidusC)]),
      ),
    };
  });
}

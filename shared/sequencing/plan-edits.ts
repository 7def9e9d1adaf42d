/** Small edits around a plan, one problem at a time. */

import type { Flame, Heat, Protection } from '../design/plan.ts';
import type { FoundProblem } from './heat-check.ts';
import { AWAY_TILT_DEG } from './heat-model-oracle.ts';
import type { FlowTry } from './flow-tries.ts';
import type { PlanEdit } from './plan-check-answer.ts';
import type { PlanToCheck } from './plan-to-check.ts';

export interface EditedPlan {
  edit: PlanEdit;
  heats: Heat[];
  says: string;
}

const without = (heat: Heat, joint: string): Heat => ({ ...heat, joints: heat.joints.filter((id) => id !== joint) });
const withoutEmpty = (heats: readonly Heat[]): Heat[] =>
  heats.filter((heat) => heat.joints.length > 0 || heat.purpose === 'anneal');

/** The edits tried for a problem, those a search would prefer first: without protections, then with fewer of them. */
export function editsFor({ solders }: Pick<PlanToCheck, 'solders'>, heats: readonly Heat[], problem: FoundProblem): EditedPlan[] {
  const h = problem.heat - 1;
  const heat = heats[h]!;
  const spared = problem.rule === 'does_not_flow' ? null : (problem.joint ?? problem.part);
  const made =
    problem.rule === 'does_not_flow'
      ? -1
      : heats.findIndex(
          ({ joints, purpose }, i) => i < h && purpose !== 'anneal' && problem.joint !== null && joints.includes(problem.joint),
        );
  const edits: EditedPlan[] = [];
  const change = (i: number, next: Heat): Heat[] => heats.map((each, k) => (k === i ? next : each));
  const otherSolders = (i: number): void => {
    for (const { id } of solders) {
      if (id === heats[i]!.solder || heats[i]!.purpose === 'anneal') continue;
      edits.push({
        edit: { kind: 'solder', heat: i + 1, solder: id },
        heats: change(i, { ...heats[i]!, solder: id }),
        says: `Heat ${i + 1} with ${id}`,
      });
    }
  };
  if (made >= 0 && spared !== null) edits.push(...mergeEdits(heats, h, made, spared));
  otherSolders(h);
  if (made >= 0) otherSolders(made);
  edits.push(...moveEdits(heats, h, made));
  if (heat.joints.length > 1) for (const joint of heat.joints) edits.push(...ownHeatEdits(heats, h, joint));
  if (spared !== null) edits.push(...protectionEdits(heats, h, spared, problem.joint !== null));
  return edits;
}

/** What brings a heat to flow, done in it; and a torch or support also in all the heats that do not flow, where there are several. */
export function helpEdits(
  heats: readonly Heat[],
  found: readonly FlowTry[],
  { number, stuck }: { number: number; stuck: readonly number[] },
): EditedPlan[] {
  const alone = found.map(({ edit, heat, says }) => ({
    edit,
    heats: heats.map((each, i) => (i === number - 1 ? heat : each)),
    says: `Heat ${number} with ${says}`,
  }));
  if (stuck.length < 2) return alone;
  const inAll = found.flatMap(({ edit, says }): EditedPlan[] => {
    if (edit.kind !== 'bench') return [];
    const { kind: _kind, heats: _heats, ...bench } = edit;
    return [
      {
        edit: { ...edit, heats: stuck },
        heats: heats.map((each, i) => (stuck.includes(i + 1) ? { ...each, ...bench } : each)),
        says: `Heats ${stuck.join(', ')} with ${says}`,
      },
    ];
  });
  return [...alone, ...inAll];
}

function protectionEdits(heats: readonly Heat[], h: number, spared: string, isJoint: boolean): EditedPlan[] {
  const heat = heats[h]!;
  const tilt: Flame = { ...heat.flame, tiltDeg: AWAY_TILT_DEG, awayFrom: spared };
  delete tilt.towards;
  const shield: Protection = { kind: 'shield', guards: spared };
  const sink: Protection = { kind: 'sink', sink: 'tweezers', at: { joint: spared } };
  const antiFlow: Protection = { kind: 'anti_flow', guards: spared };
  const sets: { protections: Protection[]; away?: boolean; says: string }[] = [
    { protections: [], away: true, says: `the flame tilted away from ${spared}` },
    { protections: [shield], says: `a shield before ${spared}` },
    { protections: [shield], away: true, says: `a shield before ${spared} and the flame tilted away from it` },
  ];
  if (isJoint) {
    sets.push(
      { protections: [antiFlow], says: `anti-flow on ${spared}` },
      { protections: [sink], says: `tweezers on ${spared}` },
      { protections: [sink], away: true, says: `tweezers on ${spared} and the flame tilted away from it` },
      { protections: [sink, shield], says: `tweezers on ${spared} and a shield before it` },
      { protections: [sink, antiFlow], says: `tweezers and anti-flow on ${spared}` },
      {
        protections: [sink, shield, antiFlow],
        away: true,
        says: `tweezers, a shield, anti-flow and a tilted flame for ${spared}`,
      },
    );
  }
  const had = new Set((heat.protections ?? []).map((each) => JSON.stringify(each)));
  return sets.flatMap(({ protections, away = false, says }) => {
    const added = protections.filter((each) => !had.has(JSON.stringify(each)));
    if (added.length === 0 && (!away || heat.flame?.awayFrom === spared)) return [];
    const next: Heat = { ...heat, ...(away ? { flame: tilt } : {}) };
    if (added.length > 0) next.protections = [...(heat.protections ?? []), ...added];
    const edit: PlanEdit = { kind: 'protect', heat: h + 1, protections: added, ...(away ? { awayFrom: spared } : {}) };
    return [{ edit, heats: heats.map((each, i) => (i === h ? next : each)), says: `Heat ${h + 1} with ${says}` }];
  });
}

/** The joint into the later heat, or the later heat's joints into the earlier one. */
function mergeEdits(heats: readonly Heat[], h: number, made: number, joint: string): EditedPlan[] {
  const into = heats.map((each, i) =>
    i === h ? { ...each, joints: [...each.joints, joint] } : i === made ? without(each, joint) : each,
  );
  const edits: EditedPlan[] = [
    {
      edit: { kind: 'move_joint', joint, to: h + 1 },
      heats: withoutEmpty(into),
      says: `${joint} made together with heat ${h + 1}`,
    },
  ];
  for (const target of heats[h]!.joints) {
    const back = heats.map((each, i) =>
      i === made ? { ...each, joints: [...each.joints, target] } : i === h ? without(each, target) : each,
    );
    edits.push({
      edit: { kind: 'move_joint', joint: target, to: made + 1 },
      heats: withoutEmpty(back),
      says: `${target} made together with heat ${made + 1}`,
    });
  }
  return edits;
}

function moveEdits(heats: readonly Heat[], h: number, made: number): EditedPlan[] {
  const move = (from: number, to: number): EditedPlan => {
    const rest = heats.filter((_, i) => i !== from);
    rest.splice(to, 0, heats[from]!);
    return {
      edit: { kind: 'move_heat', heat: from + 1, to: to + 1 },
      heats: rest,
      says: `Heat ${from + 1} moved to place ${to + 1}`,
    };
  };
  const edits: EditedPlan[] = [];
  if (made >= 0) edits.push(move(made, h), move(h, made));
  for (let to = 0; to < heats.length; to++) {
    if (to !== h && to !== made) edits.push(move(h, to));
    if (made >= 0 && to !== made && to !== h) edits.push(move(made, to));
  }
  return edits;
}

function ownHeatEdits(heats: readonly Heat[], h: number, joint: string): EditedPlan[] {
  const own: Heat = { ...heats[h]!, joints: [joint] };
  return [h, h + 1].map((at) => {
    const rest = heats.map((each, i) => (i === h ? without(each, joint) : each));
    rest.splice(at, 0, own);
    return {
      edit: { kind: 'own_heat', joint, at: at + 1 },
      heats: rest,
      says: `${joint} in a heat of its own, ${at === h ? 'before' : 'after'} the others of heat ${h + 1}`,
    };
  });
}

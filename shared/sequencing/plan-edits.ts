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
  if (made >= 0 && spared !== null) edits.push(...mergeEdits(heats, h, made, spared));
  edits.push(...otherSolders(solders, heats, h), ...(made >= 0 ? otherSolders(solders, heats, made) : []));
  edits.push(...moveEdits(heats, h, made));
  if (heat.joints.length > 1) for (const joint of heat.joints) edits.push(...ownHeatEdits(heats, h, joint));
  if (spared !== null) edits.push(...protectionEdits(heats, h, spared, problem.joint !== null));
  return [...edits, ...movesWithSolder(solders, heats, h), ...(made >= 0 ? movesWithSolder(solders, heats, made) : [])];
}

/** A heat with each of the other solders. */
export function otherSolders(solders: PlanToCheck['solders'], heats: readonly Heat[], i: number): EditedPlan[] {
  const heat = heats[i]!;
  if (heat.purpose === 'anneal') return [];
  return solders
    .filter(({ id }) => id !== heat.solder)
    .map(({ id }) => ({
      edit: { kind: 'solder', heat: i + 1, solder: id },
      heats: heats.with(i, { ...heat, solder: id }),
      says: `Heat ${i + 1} with ${id}`,
    }));
}

/** A heat done at another place and with another solder. */
export function movesWithSolder(solders: PlanToCheck['solders'], heats: readonly Heat[], from: number): EditedPlan[] {
  const heat = heats[from]!;
  if (heat.purpose === 'anneal') return [];
  return [...heats.keys()].flatMap((to) =>
    solders.flatMap(({ id }): EditedPlan[] => {
      if (to === from || id === heat.solder) return [];
      const edits: PlanEdit[] = [
        { kind: 'move_heat', heat: from + 1, to: to + 1 },
        { kind: 'solder', heat: to + 1, solder: id },
      ];
      return [
        {
          edit: { kind: 'together', heat: from + 1, edits },
          heats: heats.toSpliced(from, 1).toSpliced(to, 0, { ...heat, solder: id }),
          says: `Heat ${from + 1} moved to place ${to + 1}, with ${id}`,
        },
      ];
    }),
  );
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
  return [moveJoint(heats, joint, made, h), ...heats[h]!.joints.map((target) => moveJoint(heats, target, h, made))];
}

/** A joint out of one heat into another; a heat that is left empty goes. */
export function moveJoint(heats: readonly Heat[], joint: string, from: number, to: number): EditedPlan {
  const joined = { ...heats[to]!, joints: [...heats[to]!.joints, joint] };
  return {
    edit: { kind: 'move_joint', joint, to: to + 1 },
    heats: withoutEmpty(heats.with(to, joined).with(from, without(heats[from]!, joint))),
    says: `${joint} made together with heat ${to + 1}`,
  };
}

export function moveHeat(heats: readonly Heat[], from: number, to: number): EditedPlan {
  return {
    edit: { kind: 'move_heat', heat: from + 1, to: to + 1 },
    heats: heats.toSpliced(from, 1).toSpliced(to, 0, heats[from]!),
    says: `Heat ${from + 1} moved to place ${to + 1}`,
  };
}

function moveEdits(heats: readonly Heat[], h: number, made: number): EditedPlan[] {
  const edits: EditedPlan[] = [];
  if (made >= 0) edits.push(moveHeat(heats, made, h), moveHeat(heats, h, made));
  for (let to = 0; to < heats.length; to++) {
    if (to !== h && to !== made) edits.push(moveHeat(heats, h, to));
    if (made >= 0 && to !== made && to !== h) edits.push(moveHeat(heats, made, to));
  }
  return edits;
}

export function ownHeatEdits(heats: readonly Heat[], h: number, joint: string): EditedPlan[] {
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

/** An edit made: the heats of a plan after it, or why it cannot be made. */

import { expandHeat } from '../design/expand-design.ts';
import type { Flame, Heat, Protection } from '../design/plan.ts';
import { AWAY_TILT_DEG } from './heat-model-oracle.ts';
import type { PlanEdit } from './plan-check-answer.ts';
import type { PlanToCheck } from './plan-to-check.ts';

/** Why an edit cannot be made, in a sentence. */
export class EditFault extends Error {}

type Names = Pick<PlanToCheck, 'jointsOf' | 'partsOf' | 'design'>;

/**
 * The heats with one edit made; each heat counts from 1 as it stands before the edit. What there is already is not added again, and a
 * heat whose last joint has left is gone.
 *
 * @param heats in the ids of the expanded design
 * @throws {EditFault} for a heat, joint or protection that is not there, or an edit that a heat cannot take
 */
export function applyEdit(names: Names, heats: readonly Heat[], edit: PlanEdit): Heat[] {
  switch (edit.kind) {
    case 'protect':
      return changed(heats, edit.heat, (heat) => withProtections(heat, singly(names, edit.protections), edit.awayFrom));
    case 'unprotect':
      return changed(heats, edit.heat, (heat) => {
        const bare = withoutProtections(heat, singly(names, edit.protections));
        return edit.upright ? withFlame(bare, upright(bare.flame ?? {})) : bare;
      });
    case 'sink':
      return changed(heats, edit.heat, (heat) => {
        const at = indexOf(heat, edit.sink);
        const sink = heat.protections![at]!;
        if (sink.kind !== 'sink') throw new EditFault(`What is to be moved is ${words(sink.kind)}, not a sink`);
        return { ...heat, protections: heat.protections!.with(at, { ...sink, at: edit.to }) };
      });
    case 'flame':
      return changed(heats, edit.heat, (heat) => withFlame(heat, edit.flame));
    case 'bench': {
      const { kind: _kind, heats: numbers, ...bench } = edit;
      return numbers.reduce<Heat[]>((all, number) => changed(all, number, (heat) => ({ ...heat, ...bench })), [...heats]);
    }
    case 'together':
      return edit.edits.reduce<Heat[]>((all, one) => applyEdit(names, all, one), [...heats]);
    case 'solder':
      return changed(heats, edit.heat, (heat) => {
        if (heat.purpose === 'anneal') throw new EditFault(`Heat ${edit.heat} is an anneal: it takes no solder`);
        return { ...heat, solder: edit.solder };
      });
    case 'move_heat': {
      const heat = heatAt(heats, edit.heat);
      heatAt(heats, edit.to);
      return heats.toSpliced(edit.heat - 1, 1).toSpliced(edit.to - 1, 0, heat);
    }
    case 'move_joint': {
      const joints = copiesOf(names, edit.joint);
      homeOf(heats, joints, edit.joint);
      if (heatAt(heats, edit.to).purpose === 'anneal') throw new EditFault(`Heat ${edit.to} is an anneal: it makes no joint`);
      return withoutEmpty(
        heats.map((heat, i) => {
          if (i !== edit.to - 1) return without(heat, joints);
          const added = joints.filter((id) => !heat.joints.includes(id));
          return added.length === 0 ? heat : { ...heat, joints: [...heat.joints, ...added] };
        }),
      );
    }
    case 'own_heat': {
      const joints = copiesOf(names, edit.joint);
      const own = { ...homeOf(heats, joints, edit.joint), joints };
      if (!(edit.at >= 1 && edit.at <= heats.length + 1))
        throw new EditFault(`A new heat cannot be heat ${edit.at}: the plan has ${heats.length}`);
      return withoutEmpty(heats.map((heat) => without(heat, joints)).toSpliced(edit.at - 1, 0, own));
    }
    default:
      return edit satisfies never;
  }
}

const words = (name: string): string => name.replaceAll('_', '-');

function heatAt(heats: readonly Heat[], number: number): Heat {
  const heat = heats[number - 1];
  if (!heat) throw new EditFault(`There is no heat ${number}: the plan has ${heats.length}`);
  return heat;
}

function changed(heats: readonly Heat[], number: number, change: (heat: Heat) => Heat): Heat[] {
  return heats.with(number - 1, change(heatAt(heats, number)));
}

/** Each on one joint or part; those that name what is not there stay as they are. */
function singly(names: Names, protections: readonly Protection[]): readonly Protection[] {
  return protections.flatMap((each) => {
    try {
      return expandHeat({ joints: [], protections: [each] }, names).protections!;
    } catch {
      return [each];
    }
  });
}

function copiesOf({ jointsOf, design }: Names, joint: string): readonly string[] {
  const copies = design.joints.some(({ id }) => id === joint) ? [joint] : undefined;
  if (copies) return copies;
  try {
    return jointsOf(joint);
  } catch {
    throw new EditFault(`There is no joint ${joint}`);
  }
}

/** The heat that makes these joints, the first one where there are several. */
function homeOf(heats: readonly Heat[], joints: readonly string[], named: string): Heat {
  const home = heats.find(({ joints: made, purpose }) => purpose !== 'anneal' && joints.some((id) => made.includes(id)));
  if (!home) throw new EditFault(`Joint ${named} is made in no heat of the plan`);
  return home;
}

/** An anneal stays at what it is held at. */
function without(heat: Heat, joints: readonly string[]): Heat {
  if (heat.purpose === 'anneal' || !heat.joints.some((id) => joints.includes(id))) return heat;
  return { ...heat, joints: heat.joints.filter((id) => !joints.includes(id)) };
}

const withoutEmpty = (heats: readonly Heat[]): Heat[] =>
  heats.filter(({ joints, purpose }) => joints.length > 0 || purpose === 'anneal');

const same = (a: unknown, b: unknown): boolean => inOrder(a) === inOrder(b);

/** As JSON, whatever order the members came in. */
function inOrder(value: unknown): string {
  return JSON.stringify(value, (_key, one: unknown) =>
    typeof one === 'object' && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).toSorted(([a], [b]) => Number(a > b) - Number(a < b)))
      : one,
  );
}

function indexOf({ protections = [], joints }: Heat, sought: Protection): number {
  const at = protections.findIndex((each) => same(each, sought));
  if (at < 0) throw new EditFault(`The heat of ${joints.join(', ')} has no such ${words(sought.kind)}`);
  return at;
}

function withProtections(heat: Heat, protections: readonly Protection[], awayFrom: string | undefined): Heat {
  const had = heat.protections ?? [];
  const added = protections.filter((each) => !had.some((other) => same(each, other)));
  const next = added.length > 0 ? { ...heat, protections: [...had, ...added] } : heat;
  if (awayFrom === undefined) return next;
  const { towards: _towards, ...flame } = heat.flame ?? {};
  return { ...next, flame: { ...flame, tiltDeg: AWAY_TILT_DEG, awayFrom } };
}

function withoutProtections(heat: Heat, away: readonly Protection[]): Heat {
  const gone = new Set(away.map((each) => indexOf(heat, each)));
  const { protections = [], ...rest } = heat;
  const left = protections.filter((_, i) => !gone.has(i));
  return left.length > 0 ? { ...rest, protections: left } : rest;
}

function withFlame(heat: Heat, flame: Flame | null): Heat {
  const { flame: _flame, ...rest } = heat;
  return flame === null || Object.keys(flame).length === 0 ? rest : { ...rest, flame };
}

function upright({ tiltDeg: _tilt, towards: _towards, awayFrom: _away, ...flame }: Flame): Flame {
  return flame;
}

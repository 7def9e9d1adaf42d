import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../shared/design/plan.ts';
import { checkPlan, type PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';
import type { PlanCheck, PlanEdit } from '../../../shared/sequencing/plan-check-answer.ts';
import { whatIf } from '../../../shared/sequencing/what-if.ts';
import { bench, pendant, pendantPlan, solders } from '../../support/pendant.ts';

const request: PlanCheckRequest = { design: pendant, solders, bench, plan: pendantPlan };

function checkOf(plan: Plan): PlanCheck {
  const outcome = checkPlan({ ...request, plan });
  if (outcome.outcome === 'faults') throw new Error(outcome.faults[0]!.detail);
  return outcome.check;
}

function differenceOf(edits: PlanEdit[], asked = request) {
  const outcome = whatIf(asked, edits);
  if (outcome.outcome === 'faults') throw new Error(outcome.faults.map(({ detail }) => detail).join('; '));
  return outcome;
}

function faultsOf(edits: PlanEdit[], asked = request) {
  const outcome = whatIf(asked, edits);
  return outcome.outcome === 'faults' ? outcome.faults : [];
}

const [seam, bailSeam, bezel, bail] = pendantPlan.heats;
const [, antiFlow, shield] = bail!.protections!;

/** Edits of the pendant's plan, each with the plan it is to leave, written out by hand. */
const EDITS: [string, PlanEdit[], Plan['heats']][] = [
  [
    'one protection away',
    [{ kind: 'unprotect', heat: 4, protections: [shield!] }],
    [seam!, bailSeam!, bezel!, { ...bail!, protections: bail!.protections!.slice(0, 2) }],
  ],
  [
    'all protections away',
    [{ kind: 'unprotect', heat: 4, protections: bail!.protections! }],
    [seam!, bailSeam!, bezel!, { joints: ['bail-on'], solder: 'easy', flame: bail!.flame! }],
  ],
  [
    'a protection more',
    [{ kind: 'protect', heat: 4, protections: [antiFlow!, { kind: 'anti_flow', guards: 'wall-seam' }] }],
    [seam!, bailSeam!, bezel!, { ...bail!, protections: [...bail!.protections!, { kind: 'anti_flow', guards: 'wall-seam' }] }],
  ],
  ['another solder', [{ kind: 'solder', heat: 3, solder: 'easy' }], [seam!, bailSeam!, { ...bezel!, solder: 'easy' }, bail!]],
  ['a heat moved', [{ kind: 'move_heat', heat: 2, to: 1 }], [bailSeam!, seam!, bezel!, bail!]],
  [
    'a joint into another heat',
    [{ kind: 'move_joint', joint: 'bezel', to: 4 }],
    [seam!, bailSeam!, { joints: ['bezel', 'bail-on'], solder: 'easy' }],
  ],
  [
    'a flame of another kind',
    [{ kind: 'flame', heat: 4, flame: null }],
    [seam!, bailSeam!, bezel!, { joints: bail!.joints, solder: 'easy', protections: bail!.protections! }],
  ],
  [
    'two edits after another',
    [
      { kind: 'solder', heat: 3, solder: 'easy' },
      { kind: 'unprotect', heat: 4, protections: [shield!] },
    ],
    [seam!, bailSeam!, { ...bezel!, solder: 'easy' }, { ...bail!, protections: bail!.protections!.slice(0, 2) }],
  ],
];

/** What bars joining bezel and bail: its protections guard what is made in that very heat. */
const bare = (edits: PlanEdit[]): PlanEdit[] =>
  edits.some(({ kind }) => kind === 'move_joint')
    ? [{ kind: 'unprotect', heat: 4, protections: bail!.protections!, upright: true }, ...edits]
    : edits;

const nameOf = (joints: readonly string[]): string => (joints.includes('bail-on') ? 'bail-on' : joints[0]!);
const flame = ({ heats }: PlanCheck): number => heats.reduce((sum, { timeToFlowS }) => sum + timeToFlowS!, 0);
const keys = ({ problems, heats }: PlanCheck): string[] =>
  problems.map(({ rule, joint, part, heat }) => `${rule} ${joint ?? part} ${heats[heat - 1]!.joints.join()}`);

/** What is said of each earlier joint, by heat and joint. */
const readings = (check: PlanCheck) =>
  new Map<string, PlanCheck['heats'][number]['earlierJoints'][number]>(
    check.heats.flatMap((heat) => heat.earlierJoints.map((joint) => [`${nameOf(heat.joints)} ${joint.joint}`, joint] as const)),
  );

describe.each(EDITS)('whatIf() of %s', (_name, edits, heats) => {
  const difference = differenceOf(bare(edits));
  const [before, after] = [checkOf(pendantPlan), checkOf({ heats })];

  test('leaves the plan that the edit says, with the two verdicts of the two whole checks', () => {
    expect(difference.plan.heats).toEqual(heats);
    expect(difference.verdict).toEqual({ before: before.verdict, after: after.verdict });
  });

  test('tells every earlier joint whose margins or verdict are otherwise, and no other', () => {
    // Told anew from the whole checks: a heat is known by one of its joints, which no edit here moves to another.
    const [was, is] = [readings(before), readings(after)];
    const expected = [...new Set([...was.keys(), ...is.keys()])].filter((key) => {
      const [a, b] = [was.get(key), is.get(key)];
      return (
        !a ||
        !b ||
        a.verdict !== b.verdict ||
        Math.abs(a.solidMarginK - b.solidMarginK) >= 1 ||
        Math.abs(a.runMarginK - b.runMarginK) >= 1
      );
    });
    const told = difference.heats.flatMap(({ joints, earlierJoints }) =>
      earlierJoints.map(({ joint }) => `${nameOf(joints)} ${joint}`),
    );
    expect(told.toSorted()).toEqual(expected.toSorted());
    for (const { joints, earlierJoints } of difference.heats) {
      for (const one of earlierJoints) {
        const key = `${nameOf(joints)} ${one.joint}`;
        if (one.before) expect(was.get(key)).toMatchObject(one.before);
        if (one.after) expect(is.get(key)).toMatchObject(one.after);
      }
    }
  });

  test('counts flame and problems as the two whole checks do', () => {
    expect(difference.flameS.before).toBeCloseTo(flame(before), 9);
    expect(difference.flameS.after).toBeCloseTo(flame(after), 9);
    const gone = keys(before).filter((key) => !keys(after).includes(key));
    const come = keys(after).filter((key) => !keys(before).includes(key));
    expect(difference.problems.gone).toHaveLength(gone.length);
    expect(difference.problems.new).toHaveLength(come.length);
  });
});

// Usual minutes of the trade (usual-minutes.ts): a protection 2, a heat 8, its pickle 3.
test('whatIf() counts the hands: a protection less is 2 minutes less, two heats in one and three protections away 17', () => {
  const less = differenceOf([{ kind: 'unprotect', heat: 4, protections: [shield!] }]).handsOnMinutes;
  expect(less.before - less.after).toBeCloseTo(2, 6);
  const joined = differenceOf(bare([{ kind: 'move_joint', joint: 'bezel', to: 4 }])).handsOnMinutes;
  expect(joined.before - joined.after).toBeCloseTo(17, 6);
});

test.each<[string, PlanEdit]>([
  ['the same solder', { kind: 'solder', heat: 3, solder: 'medium' }],
  ['a protection that is there', { kind: 'protect', heat: 4, protections: [antiFlow!] }],
  ['its own place', { kind: 'move_heat', heat: 2, to: 2 }],
  ['the joint in its own heat', { kind: 'move_joint', joint: 'bezel', to: 3 }],
  ['a heat of its own for a joint alone', { kind: 'own_heat', joint: 'bezel', at: 3 }],
  ['no protection away', { kind: 'unprotect', heat: 4, protections: [] }],
])('whatIf() of %s changes nothing', (_name, edit) => {
  const { heats, problems, verdict, flameS, handsOnMinutes, plan, says } = differenceOf([edit]);
  expect(plan).toEqual(pendantPlan);
  expect(heats).toEqual([]);
  expect(problems).toEqual({ gone: [], new: [] });
  for (const { before, after } of [verdict, flameS, handsOnMinutes]) expect(after).toBe(before);
  expect(says).toBe('Nothing changes');
});

test('whatIf() says what an edit changes in a sentence', () => {
  const says = (edits: PlanEdit[]) => differenceOf(edits).says;
  expect(says([{ kind: 'unprotect', heat: 4, protections: bail!.protections! }])).toMatch(
    /^1 problem new; predicted for bezel in heat 4: it may run; before, it softens; \d s of flame less; \d min of hands less; now the plan has a problem$/,
  );
  expect(says([{ kind: 'move_heat', heat: 2, to: 1 }])).toBe('Nothing changes but the order');
  const stuck = differenceOf([{ kind: 'protect', heat: 4, protections: [{ kind: 'shield', guards: 'bezel' }] }]);
  expect(stuck.says).toContain('heat 4 does not flow');
  // What stands in another order has no verdict of before: then the new problems are named.
  const bare = { heats: request.plan.heats.map(({ joints, solder }) => ({ joints, solder: solder! })) };
  const moved = differenceOf([{ kind: 'move_heat', heat: 4, to: 2 }], { ...request, plan: bare });
  expect(moved.problems.new.length).toBeGreaterThan(0);
  expect(moved.says).toContain(`in heat ${moved.problems.new[0]!.heat}, ${moved.problems.new[0]!.says}`);
  expect(stuck.flameS.after).toBeNull();
});

test('whatIf() makes every fix that a check suggests as the check made it, and counts the same problems left', () => {
  const heats = pendantPlan.heats.map(({ joints }) => ({ joints, solder: joints[0] === 'bail-on' ? 'easy' : 'medium' }));
  const asked = { ...request, plan: { heats } };
  const { problems } = checkOf(asked.plan);
  expect(problems.length).toBeGreaterThan(0);
  for (const { bestFix } of problems) {
    const { plan, problems: changed } = differenceOf([bestFix!.change], asked);
    expect(plan).toEqual(bestFix!.change.plan);
    expect(problems.length - changed.gone.length + changed.new.length).toBe(bestFix!.problemsLeft);
  }
});

test('whatIf() says why an edit cannot be made, or which rule it breaks', () => {
  const one = (edit: object) => faultsOf([edit as PlanEdit])[0];
  expect(one({ kind: 'solder', heat: 9, solder: 'hard' })).toEqual({
    pointer: '/edits/0',
    detail: 'There is no heat 9: the plan has 4',
  });
  expect(one({ kind: 'move_joint', joint: 'nose', to: 2 })).toEqual({ pointer: '/edits/0', detail: 'There is no joint nose' });
  expect(one({ kind: 'unprotect', heat: 1, protections: [shield] })!.detail).toContain('has no such shield');
  expect(one({ kind: 'own_heat', joint: 'bezel', at: 7 })!.detail).toContain('cannot be heat 7');
  expect(one({ kind: 'sink', heat: 4, sink: shield, to: { joint: 'bezel' } })!.detail).toContain('not a sink');
  // Rules of the design, named as a check of the whole plan names them.
  const [moved] = faultsOf([{ kind: 'move_heat', heat: 3, to: 1 }]);
  expect(moved!.pointer).toBe('/edits');
  expect(moved!.detail).toContain('wall-seam');
  const [graded] = faultsOf([{ kind: 'solder', heat: 4, solder: 'hard' }]);
  expect(graded!.detail).toContain('bail-on');
  expect(one({ kind: 'solder', heat: 4, solder: 'tin' })!.pointer).toBe('/edits');
  const [unsound] = faultsOf([{ kind: 'move_heat', heat: 1, to: 1 }], {
    ...request,
    plan: { heats: pendantPlan.heats.slice(1) },
  });
  expect(unsound!.pointer).toMatch(/^\/(plan|design)/);
});

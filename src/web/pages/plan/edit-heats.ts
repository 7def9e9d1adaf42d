import type { Heat, Plan, Protection } from '../../../../shared/design/plan.ts';

/** Small changes of a plan by hand; heats count from 0 here. */

export function withHeatMoved({ heats }: Plan, from: number, to: number): Plan {
  const rest = heats.filter((_, index) => index !== from);
  return { heats: [...rest.slice(0, to), heats[from]!, ...rest.slice(to)] };
}

export function withHeat({ heats }: Plan, index: number, change: Partial<Heat>): Plan {
  return { heats: heats.map((heat, at) => (at === index ? tidy({ ...heat, ...change }) : heat)) };
}

/** Takes a joint to another heat, or into one of its own just after; a heat that is left empty goes. */
export function withJointIn({ heats }: Plan, joint: string, to: number | 'own'): Plan {
  const from = heats.findIndex(({ joints }) => joints.includes(joint));
  const lifted = heats.map((heat) => ({ ...heat, joints: heat.joints.filter((id) => id !== joint) }));
  if (to === 'own') {
    const { solder } = heats[from]!;
    lifted.splice(from + 1, 0, { joints: [joint], ...(solder !== undefined && { solder }) });
  } else lifted[to] = { ...lifted[to]!, joints: [...lifted[to]!.joints, joint] };
  return { heats: lifted.filter(({ joints, purpose }) => joints.length > 0 || purpose === 'anneal') };
}

export function withProtection(plan: Plan, index: number, protection: Protection): Plan {
  return withHeat(plan, index, { protections: [...(plan.heats[index]!.protections ?? []), protection] });
}

export function withoutProtection(plan: Plan, index: number, which: number): Plan {
  return withHeat(plan, index, { protections: (plan.heats[index]!.protections ?? []).filter((_, at) => at !== which) });
}

/** Empty lists and members that are undefined are left out, as the server keeps it. */
function tidy(heat: Heat): Heat {
  const { protections, flame, ...rest } = heat;
  return {
    ...rest,
    ...(protections && protections.length > 0 && { protections }),
    ...(flame && Object.keys(flame).length > 0 && { flame }),
  };
}

import * as designs from '../../seed/designs.ts';
import * as largerDesigns from '../../seed/larger-designs.ts';
import type { Design } from '../../shared/design/design.ts';
import type { Bench } from '../../shared/design/plan.ts';
import { playHeat } from '../../shared/thermal/heat-control.ts';
import type { HeatProgram } from '../../shared/thermal/heat-control.ts';
import type { HeatQuestion } from '../../shared/thermal/heat-run.ts';
import { layHeat, lightHeat } from '../../shared/thermal/heat-setup.ts';
import type { LaidHeat } from '../../shared/thermal/heat-setup.ts';
import { heatProgram } from '../../shared/thermal/simulate-heat.ts';
import { SOLDERS } from './heated-pieces.ts';

const TORCHES = ['medium', 'large', 'extra_large'] as const;

export interface DemoHeat {
  name: string;
  question: HeatQuestion;
}

/** The pieces of the demo studio. */
export const DEMO_DESIGNS: Readonly<Record<string, Design>> = { ...designs, ...largerDesigns };

/** A heat laid and lit on a constant loss, the flame shared evenly. */
export function lit(question: HeatQuestion, { cellFactor = 1, layered = false } = {}): { laid: LaidHeat; program: HeatProgram } {
  const laid = layHeat(question, cellFactor);
  const weights = laid.fields.map(() => 1 / laid.fields.length);
  return { laid, program: heatProgram(laid, lightHeat(laid, layered), weights) };
}

/** Everything else made: a joint of a design brought to flow with the smallest torch that does it, or the largest there is. */
export function heatOf(design: Design, target: string, more: Partial<HeatQuestion> = {}): HeatQuestion {
  const made = design.joints.map(({ id }) => id).filter((id) => id !== target);
  const asked = (torch: Bench['torch']): HeatQuestion => ({
    design,
    bench: { torch, support: 'brick' },
    targets: [target],
    made,
    solders: SOLDERS,
    ...more,
  });
  const questions = TORCHES.map(asked);
  return (
    questions.find((question) => playHeat({ ...lit(question).program, playOut: false }).settlesC === null) ?? questions.at(-1)!
  );
}

/** The last heat of each piece of the demo studio. */
export function demoHeats(): DemoHeat[] {
  return Object.entries(DEMO_DESIGNS).map(([name, design]) => ({ name, question: heatOf(design, design.joints.at(-1)!.id) }));
}

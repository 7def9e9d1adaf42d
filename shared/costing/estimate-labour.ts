import { Decimal, sum } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { groupBy } from '../group-by.ts';
import type { EstimateRequest, LabourLine } from './estimate-request.ts';
import { physics, price } from './inputs.ts';
import { runFactor } from './small-run.ts';
import type { Worksheet } from './worksheet.ts';

/** Labour by role, and what every hour at the bench carries with it. */
export function costLabour(sheet: Worksheet, { labour, policy }: EstimateRequest): void {
  const longAs = runFactors();
  const work = labour.map((line) => ({
    role: line.role,
    minutes: sheet.note(`labour.${line.operation}.minutes`, plannedMinutes(line, longAs), 'min'),
  }));
  for (const [role, own] of groupBy(work, (line) => line.role)) {
    const rate = Object.hasOwn(policy.ratesPerHour, role) ? policy.ratesPerHour[role] : undefined;
    if (rate === undefined)
      throw new EngineInputError('role', role, `one with a rate: ${Object.keys(policy.ratesPerHour).join(', ')}`);
    const minutes = sheet.note(`labour.${role}.minutes`, sum(own.map((line) => line.minutes)), 'min');
    const cost = sheet.money(`labour.${role}.cost`, minutes.div(60).times(price(`ratesPerHour.${role}`, rate)));
    sheet.line('labour', `labour ${role}`, cost);
  }
  const minutes = sheet.note('labour.minutes', sum(work.map((line) => line.minutes)), 'min');
  const overhead = minutes.div(60).times(price('overheadPerBenchHour', policy.overheadPerBenchHour));
  sheet.line('overhead', 'overhead', sheet.money('overhead.cost', overhead));
  const consumables = minutes.div(60).times(price('consumablesPerBenchHour', policy.consumablesPerBenchHour));
  sheet.line('consumables', 'consumables', sheet.money('consumables.cost', consumables));
}

/** (set-up + first piece · Σ k^(log₂ L)) · learned factor. */
function plannedMinutes(
  { operation, minutes, factor = 1, setupMinutes = 0, run }: LabourLine,
  longAs: (run: NonNullable<LabourLine['run']>) => Decimal,
): Decimal {
  const first = physics(`${operation}.minutes`, minutes, { from: 0 });
  const setup = physics(`${operation}.setupMinutes`, setupMinutes, { from: 0 });
  return setup.plus(run ? first.times(longAs(run)) : first).times(physics(`${operation}.factor`, factor, { above: 0 }));
}

/** Every line of a run has the same, so each is worked out once. */
function runFactors(): (run: NonNullable<LabourLine['run']>) => Decimal {
  const known = new Map<string, Decimal>();
  return ({ pieces, learningFraction }) => {
    const key = `${pieces} ${learningFraction}`;
    const found = known.get(key) ?? runFactor(pieces, learningFraction);
    known.set(key, found);
    return found;
  };
}

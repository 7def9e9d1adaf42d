import { sum, type Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { groupBy } from '../group-by.ts';
import type { EstimateRequest } from './estimate-request.ts';
import { price } from './inputs.ts';
import { labourMinutes, type RunTimes } from './labour-minutes.ts';
import { runFactor } from './small-run.ts';
import type { Worksheet } from './worksheet.ts';

/** Labour by role, and what every hour at the bench carries with it. */
export function costLabour(sheet: Worksheet, { labour, policy }: EstimateRequest): void {
  const runTimes = keptRunTimes();
  const work = labour.map((line) => ({
    role: line.role,
    minutes: sheet.note(`labour.${line.operation}.minutes`, labourMinutes(line, runTimes), 'min'),
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

/** Every line of a run has the same, so each is worked out once. */
function keptRunTimes(): RunTimes {
  const known = new Map<string, Decimal>();
  return ({ pieces, learningFraction }) => {
    const key = `${pieces} ${learningFraction}`;
    const found = known.get(key) ?? runFactor(pieces, learningFraction);
    known.set(key, found);
    return found;
  };
}

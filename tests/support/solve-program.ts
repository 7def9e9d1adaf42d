/** The fewest protections of a piece by general-purpose solvers; null where they say there is no plan. */

import highsModule from 'highs';
import { solve } from 'yalps';
import { asLpText, type Program } from './sequence-milp.ts';

// Its types are those of its CommonJS build; as a module, the default export is the loader itself.
const loadHighs = highsModule as unknown as typeof highsModule.default;
const highs = await loadHighs();

/** By HiGHS. Undefined where the seconds were not enough. */
export function byHighs(program: Program, limitS: number): number | null | undefined {
  const { Status: status, ObjectiveValue: value } = highs.solve(asLpText(program), { output_flag: false, time_limit: limitS });
  if (status === 'Infeasible') return null;
  return status === 'Optimal' ? Math.round(value) : undefined;
}

/** By YALPS, which has no need of a text. Undefined where the seconds were not enough. */
export function byYalps({ variables, costs, rows }: Program, limitS: number): number | null | undefined {
  const columns = new Map([...variables].map((name) => [name, new Map([['cost', costs.get(name) ?? 0]])]));
  for (const [i, { coefficients }] of rows.entries()) {
    for (const [name, factor] of coefficients) columns.get(name)!.set(`row${i}`, factor);
  }
  const { status, result } = solve(
    {
      direction: 'minimize',
      objective: 'cost',
      constraints: new Map(rows.map(({ least }, i) => [`row${i}`, { min: least }])),
      variables: columns,
      binaries: true,
    },
    { timeout: 1000 * limitS, maxIterations: Infinity },
  );
  if (status === 'infeasible') return null;
  return status === 'optimal' ? Math.round(result) : undefined;
}

/** The fewest protections of a piece by z3, from a text of pseudo-Boolean constraints. */

import { init, killThreads } from 'z3-solver';
import type { Program } from './sequence-milp.ts';

/** Σ coefficients · variables ≥ least, with every coefficient above zero: what counts against it is turned into its contrary. */
function constraint(coefficients: ReadonlyMap<string, number>, least: number): string {
  let needed = least;
  const terms = [...coefficients].map(([name, factor]) => {
    if (factor > 0) return [factor, name] as const;
    needed -= factor;
    return [-factor, `(not ${name})`] as const;
  });
  if (terms.length === 0) return needed > 0 ? 'false' : 'true';
  return `((_ pbge ${needed} ${terms.map(([factor]) => factor).join(' ')}) ${terms.map(([, name]) => name).join(' ')})`;
}

/** In the language that such solvers share, with what is to be the least. */
export function asSmtText({ variables, costs, rows }: Program, limitS: number): string {
  const cost = [...costs].map(([name, each]) => `(ite ${name} ${each} 0)`).join(' ');
  return [
    `(set-option :timeout ${1000 * limitS})`,
    ...[...variables].map((name) => `(declare-const ${name} Bool)`),
    ...rows.map(({ coefficients, least }) => `(assert ${constraint(coefficients, least)})`),
    `(minimize (+ 0 0 ${cost}))`,
    '(check-sat)',
    '(get-objectives)',
  ].join('\n');
}

const MOST_TRIES = 2;

export interface Z3 {
  /** Null where it says there is no plan; undefined where the seconds were not enough. */
  fewest: (program: Program, limitS: number) => Promise<number | null | undefined>;
  close: () => Promise<void>;
}

/** Takes seconds to load, and keeps the process alive until it is closed. */
export async function startZ3(): Promise<Z3> {
  const api = await init();
  return {
    async fewest(program, limitS) {
      const text = asSmtText(program, limitS);
      // Now and then it says at once that it does not know, and knows when it is asked again.
      let said = 'unknown';
      for (let tries = 0; tries < MOST_TRIES && said.startsWith('unknown'); tries++) {
        const context = api.Z3.mk_context(api.Z3.mk_config());
        said = await api.Z3.eval_smtlib2_string(context, text);
        api.Z3.del_context(context);
      }
      if (said.startsWith('unsat')) return null;
      const found = /^sat[^]*\(objectives[^]*? (\d+)\)\s*\)\s*$/.exec(said);
      return found ? Number(found[1]) : undefined;
    },
    close: () => killThreads(api.em),
  };
}

import type { Database, Statement } from 'better-sqlite3';

/** As many as the busiest hour asks for; each takes some kilobytes. */
const MOST = 300;

/**
 * A value that is compared, or a limit. SQLite puts a statement together anew for each value bound to one, in case another plan fits that
 * value better, and a look through two tables takes ten times as long for it. A sum of one is not looked into. What is given up is an
 * index of some rows alone for a bound value: such rows are asked for by a condition that is written out.
 * https://www.sqlite.org/c3ref/c_dbconfig_defensive.html#sqlitedbconfigenableqpsg
 */
const LOOKED_INTO = /(?<=(?:[=<>]|\b(?:like|is|limit)) )\?/gi;

/**
 * Keeps statements that were compiled once for when the same text comes again: for small queries compiling takes longer than
 * answering. The one that was asked for longest ago goes first.
 */
export function keepStatements(sqlite: Database): void {
  const kept = new Map<string, Statement>();
  const compile = sqlite.prepare.bind(sqlite) as (text: string) => Statement;
  const prepare = (text: string): Statement => {
    const known = kept.get(text);
    const statement = known ?? compile(text.replaceAll(LOOKED_INTO, '+?'));
    kept.delete(text);
    kept.set(text, statement);
    if (kept.size > MOST) kept.delete(kept.keys().next().value!);
    // Whoever had it before may have asked for rows as lists.
    if (known?.reader) known.raw(false);
    return statement;
  };
  sqlite.prepare = prepare as typeof sqlite.prepare;
}

import type { Database, Statement } from 'better-sqlite3';

/** As many as the busiest hour asks for; each takes some kilobytes. */
const MOST = 300;

/**
 * Keeps statements that were compiled once for when the same text comes again: for small queries compiling takes longer than
 * answering. The one that was asked for longest ago goes first.
 */
export function keepStatements(sqlite: Database): void {
  const kept = new Map<string, Statement>();
  const compile = sqlite.prepare.bind(sqlite) as (text: string) => Statement;
  const prepare = (text: string): Statement => {
    const known = kept.get(text);
    const statement = known ?? compile(text);
    kept.delete(text);
    kept.set(text, statement);
    if (kept.size > MOST) kept.delete(kept.keys().next().value!);
    // Whoever had it before may have asked for rows as lists.
    if (known?.reader) known.raw(false);
    return statement;
  };
  sqlite.prepare = prepare as typeof sqlite.prepare;
}

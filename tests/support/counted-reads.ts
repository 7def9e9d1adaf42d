import type { Database, Statement } from 'better-sqlite3';

/** What statements read between two moments: rows handed out, and with which parameters each was asked last. */
export interface CountedReads {
  rows: number;
  asked: Map<string, unknown[]>;
}

/** Counts what a connection reads from here on. @returns what was read since it was asked for last */
export function countReads(sqlite: Database): () => CountedReads {
  let reads: CountedReads = { rows: 0, asked: new Map() };
  const patched = new WeakSet<Statement>();
  const prepare = sqlite.prepare.bind(sqlite) as (text: string) => Statement;
  sqlite.prepare = ((text: string) => {
    const statement = prepare(text);
    if (patched.has(statement)) return statement;
    patched.add(statement);
    const [all, get] = [statement.all.bind(statement), statement.get.bind(statement)];
    statement.all = (...given: unknown[]) => {
      const found = all(...given);
      reads.asked.set(text, given);
      reads.rows += found.length;
      return found;
    };
    statement.get = (...given: unknown[]) => {
      reads.asked.set(text, given);
      reads.rows += 1;
      return get(...given);
    };
    return statement;
  }) as typeof sqlite.prepare;
  return () => {
    const since = reads;
    reads = { rows: 0, asked: new Map() };
    return since;
  };
}

/** Tables that a statement goes through from one end to the other, without stopping at a page's length. */
export function scannedBy(sqlite: Database, text: string, given: readonly unknown[]): string[] {
  // What asks for one of none is not run at all, whatever its plan says.
  if (/\blimit \?\s*$/i.test(text) || /\bwhere false\b/i.test(text)) return [];
  const plan = sqlite.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${text}`).all(...given);
  return plan.flatMap(({ detail }) => {
    const [, table] = /^SCAN "?(\w+)/.exec(detail) ?? [];
    return table === undefined || /USING .*INDEX \w+_(open|held|some|now)\b/.test(detail) ? [] : [table];
  });
}

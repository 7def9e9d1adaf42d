import type { Database, Statement } from 'better-sqlite3';

/** What statements read between two moments: rows handed out, how often each was asked, and with which parameters last. */
export interface CountedReads {
  rows: number;
  asked: Map<string, unknown[]>;
  times: Map<string, number>;
}

const none = (): CountedReads => ({ rows: 0, asked: new Map(), times: new Map() });

/** Counts what a connection reads from here on. @returns what was read since it was asked for last */
export function countReads(sqlite: Database): () => CountedReads {
  let reads = none();
  const note = (text: string, given: unknown[], rows: number): void => {
    reads.rows += rows;
    reads.asked.set(text, given);
    reads.times.set(text, 1 + (reads.times.get(text) ?? 0));
  };
  const patched = new WeakSet<Statement>();
  const prepare = sqlite.prepare.bind(sqlite) as (text: string) => Statement;
  sqlite.prepare = ((text: string) => {
    const statement = prepare(text);
    if (patched.has(statement)) return statement;
    patched.add(statement);
    const [all, get] = [statement.all.bind(statement), statement.get.bind(statement)];
    statement.all = (...given: unknown[]) => {
      const found = all(...given);
      note(text, given, found.length);
      return found;
    };
    statement.get = (...given: unknown[]) => {
      note(text, given, 1);
      return get(...given);
    };
    return statement;
  }) as typeof sqlite.prepare;
  return () => {
    const since = reads;
    reads = none();
    return since;
  };
}

/** Nearly every heat is cleared, and a line of the journal is of one of a few things: an index of that alone is a large share of the table. */
const FEW_VALUES = /^SEARCH "?(heats|journal)"? USING (?:COVERING )?INDEX \w+ \((?:state|what)=\?\)/;

/** Tables that a statement goes through from one end to the other, or by what many rows have in common, without stopping at a page's length. */
export function scannedBy(sqlite: Database, text: string, given: readonly unknown[]): string[] {
  // What asks for one of none is not run at all, whatever its plan says.
  if (/\blimit \?\s*$/i.test(text) || /\bwhere false\b/i.test(text)) return [];
  const plan = sqlite.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${text}`).all(...given);
  return plan.flatMap(({ detail }) => {
    const [, table] = /^SCAN "?(\w+)/.exec(detail) ?? FEW_VALUES.exec(detail) ?? [];
    return table === undefined || /USING .*INDEX \w+_(open|held|some|now)\b/.test(detail) ? [] : [table];
  });
}

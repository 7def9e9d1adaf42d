import type { Database } from 'better-sqlite3';

/** What statements read between two moments: rows handed out, how often each was asked, and with which parameters last. */
export interface CountedReads {
  rows: number;
  asked: Map<string, unknown[]>;
  times: Map<string, number>;
}

const none = (): CountedReads => ({ rows: 0, asked: new Map(), times: new Map() });

interface AnyStatement {
  readonly database: Database;
  readonly source: string;
  all: (...given: unknown[]) => unknown[];
  get: (...given: unknown[]) => unknown;
}

const counted = new WeakMap<Database, CountedReads>();
const patched = new WeakSet<object>();

/** Counts what a connection reads from here on, also by statements that were there before. @returns what was read since it was asked for last */
export function countReads(sqlite: Database): () => CountedReads {
  const statements = Object.getPrototypeOf(sqlite.prepare('SELECT 1')) as AnyStatement;
  if (!patched.has(statements)) {
    patched.add(statements);
    const { all, get } = statements;
    const note = ({ database, source }: AnyStatement, given: unknown[], rows: number): void => {
      const reads = counted.get(database);
      if (!reads) return;
      reads.rows += rows;
      reads.asked.set(source, given);
      reads.times.set(source, 1 + (reads.times.get(source) ?? 0));
    };
    statements.all = function (this: AnyStatement, ...given: unknown[]) {
      const found = all.apply(this, given);
      note(this, given, found.length);
      return found;
    };
    statements.get = function (this: AnyStatement, ...given: unknown[]) {
      note(this, given, 1);
      return get.apply(this, given);
    };
  }
  counted.set(sqlite, none());
  return () => {
    const since = counted.get(sqlite)!;
    counted.set(sqlite, none());
    return since;
  };
}

/** Nearly every heat is cleared, and a line of the journal is of one of a few things: an index of that alone is a large share of the table. */
const FEW_VALUES = /^SEARCH "?(heats|journal)"? USING (?:COVERING )?INDEX \w+ \((?:state|what)=\?\)/;

/** Tables that a statement goes through from one end to the other, or by what many rows have in common, without stopping at a page's length. */
export function scannedBy(sqlite: Database, text: string, given: readonly unknown[]): string[] {
  // What asks for one of none is not run at all, whatever its plan says.
  if (/\blimit \+?\?\s*$/i.test(text) || /\bwhere false\b/i.test(text)) return [];
  const plan = sqlite.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${text}`).all(...given);
  return plan.flatMap(({ detail }) => {
    const [, table] = /^SCAN "?(\w+)/.exec(detail) ?? FEW_VALUES.exec(detail) ?? [];
    return table === undefined || /USING .*INDEX \w+_(open|held|some|now)\b/.test(detail) ? [] : [table];
  });
}

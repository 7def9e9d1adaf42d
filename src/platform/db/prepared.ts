import type { Db } from './client.ts';

/**
 * A query that is put together once for each open book, for what nearly every request asks: putting it together takes several times
 * longer than answering. It is part of whatever transaction is open, as every statement of a connection is.
 */
export function prepared<Query extends object>(build: (db: Db) => Query): (db: Db) => Query {
  const built = new WeakMap<object, Query>();
  return (db) => {
    // The connection, which the book and its transactions have in common.
    const { client } = (db as unknown as { session: { client: object } }).session;
    const known = built.get(client);
    if (known) return known;
    const query = build(db);
    built.set(client, query);
    return query;
  };
}

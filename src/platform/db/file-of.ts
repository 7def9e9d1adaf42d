import { sql } from 'drizzle-orm';
import type { Db } from './client.ts';

/** Where a book is kept; null for one that is in memory alone. */
export function fileOf(db: Db): string | null {
  const { file } = db.get<{ file: string }>(sql`SELECT file FROM pragma_database_list WHERE name = 'main'`);
  return file === '' ? null : file;
}

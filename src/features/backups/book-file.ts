import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Db } from '../../platform/db/client.ts';
import { fileOf } from '../../platform/db/file-of.ts';
import { Problem } from '../../platform/http/problem.ts';

/** Where a book is kept. @throws {Problem} condition-not-met for one that is in memory alone: it has no backups */
export function bookFileOf(db: Db): string {
  const file = fileOf(db);
  if (file === null) throw new Problem('condition-not-met', 'Cannot back this book up: it is kept in memory alone');
  return file;
}

/** The copy that a backup is encrypted from. */
export const copyOf = (bookFile: string): string => `${bookFile}.copy`;

/** A backup until all of it is there. */
export const partOf = (folder: string, fileName: string): string => join(folder, `${fileName}.part`);

/** Where a backup is opened to be read through. */
export const openedBeside = (bookFile: string): string => join(dirname(bookFile), 'backup.opened');

/** Removes a copy of a book that was looked into, with all that SQLite may have laid beside it. */
export function removeCopy(file: string): void {
  for (const part of ['', '-wal', '-shm', '-journal']) rmSync(file + part, { force: true });
}

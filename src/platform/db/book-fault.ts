import Database from 'better-sqlite3';

interface BookFault {
  kind: 'no-room-on-disk' | 'book-not-writable' | 'book-damaged';
  why: string;
}

/** What SQLite says of the file and its disk, by the beginning of its code (sqlite.org/rescode.html). */
const FAULTS: readonly (readonly [RegExp, BookFault])[] = [
  [/^SQLITE_FULL/, { kind: 'no-room-on-disk', why: 'no room is left on its disk' }],
  [/^SQLITE_(CORRUPT|NOTADB)/, { kind: 'book-damaged', why: 'its file is damaged, or is no book' }],
  [
    /^SQLITE_(READONLY|CANTOPEN|PERM|IOERR|LOCKED|BUSY)/,
    { kind: 'book-not-writable', why: 'its file, or the folder of it, takes no writing' },
  ],
];

/** An error of the database that lies in the file or its disk; undefined for one that is a fault of the program. */
export function bookFault(error: Error): BookFault | undefined {
  const sqlite = [error, error.cause].find((one) => one instanceof Database.SqliteError);
  return sqlite && FAULTS.find(([code]) => code.test(sqlite.code))?.[1];
}

/** Why a book cannot be opened, and what to do. */
export function whyNotOpened(error: Error): string {
  const fault = bookFault(error);
  if (fault?.kind === 'book-damaged')
    return `${fault.why}. It was left as it is: keep it, and put a backup in its place by npm run restore -- /path/of/the/backup`;
  if (fault)
    return `${fault.why}. Look whether the disk is full or mounted to be read only, and whether this user may write there`;
  const { code } = error as { code?: string };
  if (code === 'EACCES' || code === 'EROFS' || code === 'EPERM')
    return 'its folder cannot be made: this user may not write there';
  return error.message;
}

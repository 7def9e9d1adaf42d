import Database from 'better-sqlite3';

/**
 * Copies a book that others write meanwhile, a few pages at a time: all of the copy is of the moment at which it was begun.
 *
 * @param into a file that is not there yet
 * @param isStopped asked every few pages; once it says so, the copy is left as it is
 * @returns whether all of it is there
 * @throws what SQLite says of the book or of the disk
 */
export async function copyBook(bookFile: string, into: string, isStopped: () => boolean = () => false): Promise<boolean> {
  const book = new Database(bookFile, { readonly: true });
  try {
    // Reading from one transaction: without it every write of others would begin the copy anew.
    book.exec('BEGIN');
    book.prepare('SELECT 1 FROM sqlite_schema').get();
    await book.backup(into, {
      progress: () => {
        if (isStopped()) throw new Stopped();
        return PAGES_AT_ONCE;
      },
    });
    return true;
  } catch (error) {
    if (error instanceof Stopped) return false;
    throw error;
  } finally {
    book.close();
  }
}

const PAGES_AT_ONCE = 100;

class Stopped extends Error {}

import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Encrypter } from 'age-encryption';
import Database from 'better-sqlite3';
import { copyBook } from '../../platform/db/copy-book.ts';
import { flushFolder } from '../../platform/whole-file.ts';
import { copyOf, partOf, removeCopy } from './book-file.ts';

export interface BackupToMake {
  bookFile: string;
  folder: string;
  fileName: string;
  recipient: string;
}

/**
 * Puts a copy of a book away, encrypted (age-encryption.org/v1). The book is written meanwhile: the copy is of one moment, taken a
 * few pages at a time. The file gets its name when all of it is on the disk.
 *
 * @throws what the system says of the folder or the disk
 */
export async function makeBackup({
  bookFile,
  folder,
  fileName,
  recipient,
}: BackupToMake): Promise<{ bytes: number; sha256: string }> {
  const plain = copyOf(bookFile);
  const part = partOf(folder, fileName);
  removeCopy(plain);
  try {
    try {
      await copyBook(bookFile, plain);
    } catch (error) {
      const isFull = error instanceof Database.SqliteError && error.code === 'SQLITE_FULL';
      throw isFull ? new Error('no room is left beside the book for the copy that is encrypted') : error;
    }
    const encrypter = new Encrypter();
    encrypter.addRecipient(recipient);
    const closed = await encrypter.encrypt(Readable.toWeb(createReadStream(plain)) as ReadableStream<Uint8Array>);
    const hash = createHash('sha256');
    let bytes = 0;
    const counted = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        hash.update(chunk);
        bytes += chunk.length;
        done(null, chunk);
      },
    });
    await pipeline(Readable.fromWeb(closed as never), counted, createWriteStream(part, { mode: 0o600, flush: true }));
    renameSync(part, join(folder, fileName));
    flushFolder(folder);
    return { bytes, sha256: hash.digest('hex') };
  } finally {
    rmSync(part, { force: true });
    removeCopy(plain);
  }
}

import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { writeWhole } from '../../platform/whole-file.ts';

/** What opens every backup of a book (an age identity), and what closes them (its recipient). */
export interface BackupKey {
  identity: string;
  recipient: string;
}

const IDENTITY = /^AGE-SECRET-KEY-1[0-9A-Z]{58}$/;

/** Beside the book, never in it: a copy of the book without its folder opens no backup. */
export function keyFile(bookFile: string): string {
  return join(dirname(bookFile), 'backup-key.txt');
}

/** The key of a book; made when there is none yet. @throws if the file holds something else */
export async function backupKey(bookFile: string): Promise<BackupKey> {
  // Looked for once a day at most.
  const { generateX25519Identity, identityToRecipient } = await import('age-encryption');
  const file = keyFile(bookFile);
  if (!existsSync(file)) {
    const made = await generateX25519Identity();
    // Somebody else may have asked for it meanwhile.
    if (!existsSync(file)) keepIdentity(bookFile, made);
  }
  const identity = readIdentity(readFileSync(file, 'utf8'));
  if (identity === null) throw new Error(`${file} does not hold a key of backups`);
  return { identity, recipient: await identityToRecipient(identity) };
}

export function keepIdentity(bookFile: string, identity: string): void {
  writeWhole(keyFile(bookFile), `${identity}\n`, 0o600);
}

/** A key as it is typed from paper: spaces and lower case do not matter. Null when it is none. */
export function readIdentity(typed: string): string | null {
  const identity = typed.replaceAll(/\s/g, '').toUpperCase();
  return IDENTITY.test(identity) ? identity : null;
}

import { existsSync, readFileSync } from 'node:fs';
import { createInterface } from 'node:readline/promises';
import { bookFile, readConfig } from './config.ts';
import { readIdentity } from './features/backups/index.ts';
import { keyBeside, restoreBook } from './features/backups/restore-book.ts';
import { systemClock } from './platform/clock.ts';

/** `npm run restore -- FILE`: puts a backup, or an export of everything, in place of the book. The server must not run meanwhile. */
const [file] = process.argv.slice(2);
const book = bookFile(readConfig(process.env));
const say = (line: string) => process.stdout.write(`${line}\n`);

function refuse(why: string): never {
  process.stderr.write(`${why}\n`);
  process.exit(1);
}

async function keyOf(path: string): Promise<string | null> {
  if (!path.endsWith('.age')) return null;
  const beside = keyBeside(book);
  const typed =
    process.env['HEARTHBOOK_BACKUP_KEY'] ??
    (beside && readFileSync(beside, 'utf8')) ??
    (await createInterface({ input: process.stdin, output: process.stderr }).question('Key, from the recovery form: '));
  return (
    readIdentity(typed) ?? refuse('This is no key of backups: it begins with AGE-SECRET-KEY-1 and is 74 letters and digits.')
  );
}

if (file === undefined) refuse('Say which file: npm run restore -- /path/of/hearthbook-….sqlite.age (or the .zip of an export)');
if (!existsSync(file)) refuse(`There is no file ${file}`);
try {
  const { before, signInAgain } = await restoreBook({ file, identity: await keyOf(file), book, at: systemClock.now() });
  say(`The book is back in ${book}.`);
  if (before !== null) say(`The one that was there is kept as ${before}.`);
  say(signInAgain);
  process.exit(0);
} catch (error) {
  refuse(`Nothing was changed. ${(error as Error).message}`);
}

import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { createLateNotes } from '../../src/platform/late-notes.ts';

test('late notes wait while the book takes no writing, and are written in their order; one that is wrong in itself is told and dropped', () => {
  const book = new Database(':memory:');
  book.exec('CREATE TABLE notes (text TEXT NOT NULL) STRICT');
  const faults: string[] = [];
  const { write, again } = createLateNotes((error) => faults.push((error as Error).message));
  const note = (text: string | null) => write(() => void book.prepare('INSERT INTO notes VALUES (?)').run(text));
  const written = () => book.prepare('SELECT text FROM notes').pluck().all();
  note('first');
  book.pragma('query_only = ON');
  note('second');
  note(null);
  note('third');
  again();
  expect(written()).toEqual(['first']);
  expect(new Set(faults)).toEqual(new Set(['attempt to write a readonly database']));
  book.pragma('query_only = OFF');
  again();
  again();
  expect(written()).toEqual(['first', 'second', 'third']);
  expect(faults.at(-1)).toMatch(/NOT NULL/);
});

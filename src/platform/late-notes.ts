import { bookFault } from './db/book-fault.ts';

/** Writes what became of work that went on by itself. Nobody waits for it, so nobody could send it again. */
export interface LateNotes {
  /** Writes it now, or as soon as the book takes writing again; in the order they came. */
  write: (note: () => void) => void;
  /** Tries what waits. */
  again: () => void;
}

/** @param onFault hears of each try that failed */
export function createLateNotes(onFault: (error: unknown) => void): LateNotes {
  const waiting: (() => void)[] = [];

  function again(): void {
    for (let note = waiting[0]; note; note = waiting[0]) {
      try {
        note();
      } catch (error) {
        onFault(error);
        // A full disk is made room on; what is wrong in the note itself stays wrong.
        if (bookFault(error as Error)) return;
      }
      waiting.shift();
    }
  }

  return {
    write(note) {
      waiting.push(note);
      again();
    },
    again,
  };
}

import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** Writes a file whole or not at all, through a power cut too, and never for a moment more readable than it ends. */
export function writeWhole(file: string, text: string, mode: number): void {
  const aside = `${file}.new`;
  rmSync(aside, { force: true });
  try {
    writeFileSync(aside, text, { mode, flag: 'wx', flush: true });
    renameSync(aside, file);
  } finally {
    rmSync(aside, { force: true });
  }
  flushFolder(dirname(file));
}

/** So that the name of a file survives a power cut, too. Not every system has folders that can be opened. */
export function flushFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

import { accessSync, constants, statSync } from 'node:fs';
import type { FieldError } from '../../platform/http/problem.ts';

/** What is wrong with a folder that backups are to go to, as far as it can be seen before one is made. */
export function backupFolderErrors(folder: string): FieldError[] {
  if (folder === '') return [];
  const wrong = (detail: string): FieldError[] => [{ pointer: '/backups/folder', detail, given: folder }];
  const found = statSync(folder, { throwIfNoEntry: false });
  if (!found) return wrong('There is no such folder on the machine of the server: make it there, or plug the disk in.');
  if (!found.isDirectory()) return wrong('This is a file: name a folder.');
  try {
    accessSync(folder, constants.W_OK);
  } catch {
    return wrong('The server may not write into this folder.');
  }
  return [];
}

/** Builds the page into dist/ when it is missing or older than what it is made of; says nothing when there is nothing to do. */

import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const built = here('../../dist/index.html');

function newestIn(folder: string): number {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true });
  return Math.max(...files.map(({ parentPath, name }) => statSync(`${parentPath}/${name}`).mtimeMs));
}

const sources = Math.max(
  ...['.', '../../shared'].map((folder) => newestIn(here(folder))),
  statSync(here('../../package-lock.json')).mtimeMs,
);
if (!existsSync(built) || statSync(built).mtimeMs < sources) {
  const { build } = await import('vite');
  await build({ configFile: here('vite.config.ts'), logLevel: 'warn' });
}

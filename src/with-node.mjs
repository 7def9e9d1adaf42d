/**
 * Runs a command with the Node that the program needs: the one at hand if it is new enough, else the one that came with `npm ci`.
 *
 * Plain JavaScript, because any Node from 20 up has to read it. It does not lean on node_modules/.bin/node: npm 10 takes that link
 * away again when it leaves out the package for the other processor.
 */

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

const [major, minor] = process.versions.node.split('.').map(Number);
const isNewEnough = major > 22 || (major === 22 && minor >= 18);
const brought = join(dirname(fileURLToPath(import.meta.url)), '..', 'node_modules', `node-linux-${process.arch}`, 'bin', 'node');

if (!isNewEnough && !existsSync(brought)) {
  process.stderr.write(
    `Hearthbook needs Node 22.18 or newer; this is ${process.version}. On Linux "npm ci" brings it; elsewhere install it, or use docker-compose.yml.\n`,
  );
  process.exit(1);
}

const [command, ...args] = process.argv.slice(2);
const folder = dirname(isNewEnough ? process.execPath : brought);
const child = spawn(command, args, {
  stdio: 'inherit',
  // One arena: by default malloc keeps one for every thread of Node, which holds fifteen megabytes more at rest.
  env: {
    ...(command === 'node' ? { MALLOC_ARENA_MAX: '1' } : {}),
    ...process.env,
    PATH: `${folder}${delimiter}${process.env.PATH}`,
  },
  shell: process.platform === 'win32',
});
// The terminal tells the whole group of Ctrl-C; anybody else tells this process alone.
process.on('SIGINT', () => {});
process.on('SIGTERM', () => child.kill('SIGTERM'));
child.on('error', (error) => {
  process.stderr.write(`Cannot run ${command}: ${error.message}\n`);
  process.exit(1);
});
child.on('exit', (code, signal) => {
  process.exitCode = code ?? (signal === 'SIGINT' ? 130 : 143);
});

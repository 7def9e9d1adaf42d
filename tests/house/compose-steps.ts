/**
 * Runs the build steps of docker-compose.yml outside a container, in a throw-away folder, then starts what they made
 * with the same command and asks its health. What it can't show: the base image, the other user, the read-only root.
 */

import { execSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PORT = '3958';
const compose = readFileSync('docker-compose.yml', 'utf8');
const block = /dockerfile_inline: \|\n((?: {8}.*\n)+)/.exec(compose)?.[1];
if (!block) throw new Error('docker-compose.yml has no inline Dockerfile');
const steps = block
  .split('\n')
  .map((line) => line.trim())
  .filter((line) => line !== '');

const work = mkdtempSync(join(tmpdir(), 'hearthbook-image-'));
let command: string[] = [];
try {
  for (const step of steps) {
    const [word = '', ...rest] = step.split(' ');
    console.log(step);
    switch (word) {
      case 'FROM':
      case 'WORKDIR':
      case 'USER':
        break;
      case 'COPY':
        copy(rest.slice(0, -1), rest.at(-1)!);
        break;
      case 'RUN':
        execSync(rest.join(' '), { cwd: work, stdio: 'inherit' });
        break;
      case 'CMD':
        command = JSON.parse(rest.join(' ')) as string[];
        break;
      default:
        throw new Error(`This script does not know the step ${word}`);
    }
  }
  await tryIt(command);
  console.log('The steps of the image work: the server they make answers its health check and opens a sample studio.');
} finally {
  rmSync(work, { recursive: true, force: true });
}

function copy(from: string[], to: string): void {
  for (const path of from) {
    const target = to.endsWith('/') ? join(work, to, path) : join(work, to);
    mkdirSync(join(target, '..'), { recursive: true });
    cpSync(path, target, { recursive: true });
  }
}

/** The image has all that the sample studio is made from. */
async function openSample(): Promise<void> {
  const samples = `http://127.0.0.1:${PORT}/api/v1/samples`;
  const started = await fetch(`${samples}/first-look`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: '{}',
  });
  const cookie = started.headers.get('set-cookie')?.split(';')[0];
  if (!cookie) throw new Error(`No sample studio was begun: ${await started.text()}`);
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 1000));
    const { state } = (await (await fetch(`${samples}/current`, { headers: { cookie } })).json()) as { state: string };
    if (state === 'ready') return;
    if (state !== 'making') throw new Error(`The sample studio is ${state}`);
  }
}

async function tryIt([program, ...args]: string[]): Promise<void> {
  if (program !== 'node') throw new Error(`The image starts ${program}, not node`);
  const env = { ...process.env, HEARTHBOOK_DATA: join(work, 'data'), HOST: '127.0.0.1', PORT };
  const server = spawn(process.execPath, args, { cwd: work, env, stdio: 'inherit' });
  try {
    for (let tries = 0; ; tries++) {
      await new Promise((resolve) => setTimeout(resolve, 200));
      const reply = await fetch(`http://127.0.0.1:${PORT}/api/v1/health`).catch(() => undefined);
      if (reply?.ok) return await openSample();
      if (server.exitCode !== null) throw new Error(`The server ended with ${server.exitCode}`);
      if (tries > 75) throw new Error('The server did not answer within 15 s');
    }
  } finally {
    if (server.exitCode === null) {
      server.kill('SIGTERM');
      await new Promise((resolve) => server.once('exit', resolve));
    }
  }
}

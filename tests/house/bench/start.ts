/**
 * From the start of the process to its first answer, and what it holds in memory when nobody asks for anything: on an empty book, and
 * on one of a thousand pieces. The server is a process of its own, as `npm start` makes it.
 */

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import packageJson from '../../../package.json' with { type: 'json' };
import { growBook } from '../../support/grown-book.ts';
import { modelBook } from '../../support/model-book.ts';
import { round } from './measure.ts';

const STARTS = 5;
const REST_MS = 8000;

export async function run(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-start-'));
  try {
    const full = mkdtempSync(join(folder, 'full-'));
    const model = await modelBook(folder);
    growBook(join(full, 'hearthbook.sqlite'), model, { pieces: 1000, at: new Date() });
    const empty = mkdtempSync(join(folder, 'empty-'));
    const rows = [];
    for (const [what, data] of [
      ['empty book', empty],
      ['1,000 pieces', full],
    ] as const) {
      const starts: Awaited<ReturnType<typeof startOnce>>[] = [];
      for (let i = 0; i < STARTS; i++) starts.push(await startOnce(data));
      const middle = (of: (start: (typeof starts)[number]) => number) =>
        round(starts.map(of).sort((a, b) => a - b)[STARTS >> 1]!);
      rows.push({
        what,
        'first answer ms': middle(({ answeredMs }) => answeredMs),
        'CPU ms till then': middle(({ cpuMs }) => cpuMs),
        'at rest MiB': middle(({ restMiB }) => restMiB),
        'of it its own MiB': middle(({ ownMiB }) => ownMiB),
      });
    }
    console.table(rows);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Started, asked once, left alone for a while, and stopped. */
export async function startOnce(dataFolder: string) {
  const begun = performance.now();
  const flags = packageJson.scripts.start.match(/(?<=with-node.mjs node ).*(?= src)/)![0].split(' ');
  const env = { ...process.env, HEARTHBOOK_DATA: dataFolder, HOST: '127.0.0.1', PORT: '0' };
  const server = spawn(process.execPath, [...flags, 'src/server.ts'], { env, stdio: ['ignore', 'pipe', 'inherit'] });
  const address = await new Promise<string>((resolve, reject) => {
    createInterface({ input: server.stdout }).on('line', (line) => {
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(line);
      if (found) resolve(found[0]);
    });
    server.once('exit', () => reject(new Error('The server did not start')));
  });
  const reply = await fetch(`${address}/api/v1/health`);
  if (!reply.ok) throw new Error(`The server answers ${reply.status}`);
  const answeredMs = performance.now() - begun;
  const cpuMs = cpuMsOf(server.pid!);
  await new Promise((resolve) => setTimeout(resolve, REST_MS));
  const status = readFileSync(`/proc/${server.pid}/status`, 'utf8');
  const miB = (name: string) => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status)![1]) / 1024;
  const ended = once(server, 'exit');
  server.kill('SIGTERM');
  await ended;
  return { answeredMs, cpuMs, restMiB: miB('VmRSS'), ownMiB: miB('RssAnon') };
}

/** Of all its threads, by the clock of the kernel (a hundredth of a second). */
function cpuMsOf(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

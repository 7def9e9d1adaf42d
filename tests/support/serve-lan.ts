import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

const LAN = fileURLToPath(new URL('../../src/lan.ts', import.meta.url));

/** `npm run lan` on an empty folder and free ports of loopback, under a name of its own; stopped when the test is over. */
export async function serveLan(name: string) {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-lan-'));
  const { LAN_HOST: _host, ...env } = process.env;
  const server = spawn(process.execPath, [LAN], {
    env: { ...env, HEARTHBOOK_DATA: folder, PORT: '0', LAN_PORT: '0', LAN_HOST: '127.0.0.1', LAN_NAME: name },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = once(server, 'exit');
  const stop = async () => {
    server.kill('SIGTERM');
    await ended;
  };
  onTestFinished(async () => {
    await stop();
    rmSync(folder, { recursive: true, force: true });
  });
  const printed = await new Promise<string>((resolve, reject) => {
    let text = '';
    const take = (chunk: Buffer) => {
      text += chunk.toString();
      if (/one-time code: \S+\n/.test(text)) resolve(text);
    };
    server.stdout.on('data', take);
    server.stderr.on('data', take);
    server.once('exit', () => reject(new Error(`npm run lan ended: ${text}`)));
  });
  return {
    folder,
    printed,
    code: /one-time code: (\S+)/.exec(printed)![1]!,
    port: Number(/https:\/\/[^:]+:(\d+)/.exec(printed)![1]),
    plain: /(http:\/\/127\.0\.0\.1:\d+) on this machine/.exec(printed)![1]!,
    authorityFile: join(folder, 'lan', 'authority.crt'),
    stop,
  };
}

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';

/** A server as a process of its own, on loopback. */
export interface RunningServer {
  address: string;
  /** For the first owner, while there is none. */
  code: string | null;
  startedInMs: number;
  /** On both of its outputs, so far. */
  said: () => string;
  /** Ends it as a power cut would: nothing is told to it. */
  kill: () => Promise<void>;
  stop: () => Promise<number | null>;
}

/**
 * @param dataFolder where its book is
 * @param within begins its command line, where it is to see another disk or to be another user
 * @throws with what it said, when it does not start
 */
export async function startServer(dataFolder: string, within: readonly string[] = []): Promise<RunningServer> {
  const begun = performance.now();
  const env = { ...process.env, HEARTHBOOK_DATA: dataFolder, HOST: '127.0.0.1', PORT: '0' };
  const [program, ...rest] = [...within, process.execPath, '--max-semi-space-size=4', 'src/server.ts'];
  const server = spawn(program, rest, {
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const address = await addressOf(server);
  const startedInMs = performance.now() - begun;
  const code = await codeOf(address, server);
  const end = async (signal: 'SIGKILL' | 'SIGTERM') => {
    if (server.exitCode !== null || server.signalCode !== null) return server.exitCode;
    const ended = once(server, 'exit');
    server.kill(signal);
    await ended;
    return server.exitCode;
  };
  return {
    address,
    code,
    startedInMs,
    said: () => said.get(server)!.join('\n'),
    kill: async () => void (await end('SIGKILL')),
    stop: () => end('SIGTERM'),
  };
}

const said = new WeakMap<ChildProcess, string[]>();

async function addressOf(server: ChildProcess): Promise<string> {
  const lines: string[] = [];
  said.set(server, lines);
  server.stderr!.on('data', (text: Buffer) => lines.push(text.toString()));
  return new Promise((resolve, reject) => {
    createInterface({ input: server.stdout! }).on('line', (line) => {
      lines.push(line);
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(line);
      if (address) resolve(address[0]);
    });
    server.once('exit', () => reject(new Error(`The server did not start:\n${lines.join('\n')}`)));
  });
}

async function codeOf(address: string, server: ChildProcess): Promise<string | null> {
  const { ownerMissing } = (await (await fetch(`${address}/api/v1/health`)).json()) as { ownerMissing: boolean };
  if (!ownerMissing) return null;
  for (;;) {
    const line = said.get(server)!.find((one) => /one-time code/i.test(one));
    const code = line && /([\w-]{12})\s*$/.exec(line);
    if (code) return code[1]!;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

import { spawn, spawnSync, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, mkdtempSync, rmSync, statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * A small disk of its own, mounted where only those see it who are started in it: it is gone with the process that holds it, whatever
 * becomes of this one.
 */
export interface SmallDisk {
  folder: string;
  /** Begins a command line that sees the disk. */
  within: readonly string[];
  /** Where this process, from outside, finds a file of it. */
  reach: (name: string) => string;
  /** A copy of the book that lies on it, with what SQLite has beside it. */
  copyOfBook: (into: string) => string;
  freeBytes: () => number;
  run: (...command: string[]) => { status: number | null; said: string };
  close: () => Promise<void>;
}

type Kind =
  /** In memory: full when so many megabytes are written. */
  | { memoryMb: number }
  /** A file with ext4 in it, by a loop device: takes what a disk takes. */
  | { ext4Mb: number };

/** @returns the disk, or why there can be none here */
export async function aSmallDisk(kind: Kind): Promise<SmallDisk | { why: string }> {
  if (process.platform !== 'linux') return { why: 'a disk to fill can be mounted on Linux alone' };
  if (process.getuid!() !== 0) return { why: 'only root may mount a disk to fill' };
  const top = mkdtempSync(join(tmpdir(), 'hearthbook-disk-'));
  const folder = join(top, 'data');
  const mount =
    'memoryMb' in kind
      ? `mount -t tmpfs -o size=${kind.memoryMb}m hearthbook-rig "$0/data"`
      : `truncate -s ${kind.ext4Mb}M "$0/image" && mkfs.ext4 -q -F "$0/image" && mount -o loop "$0/image" "$0/data"`;
  // It lives until its input ends: that is when this process ends, however that comes about.
  const script = `mkdir "$0/data" && ${mount} && echo ready && exec cat`;
  const holder = spawn('unshare', ['--mount', 'sh', '-c', script, top]);
  const failure = await readyOrWhy(holder);
  if (failure !== null) {
    rmSync(top, { recursive: true, force: true });
    return { why: `no disk could be mounted: ${failure}` };
  }
  const within = ['nsenter', '--mount', '--target', String(holder.pid), 'sh', '-c', 'cd "$0" && exec "$@"', process.cwd()];
  const reach = (name: string) => join(`/proc/${holder.pid}/root`, folder, name);
  return {
    folder,
    within,
    reach,
    copyOfBook(into) {
      const copy = join(into, 'hearthbook.sqlite');
      for (const part of ['', '-wal']) {
        rmSync(copy + part, { force: true });
        if (existsSync(reach(`hearthbook.sqlite${part}`))) copyFileSync(reach(`hearthbook.sqlite${part}`), copy + part);
      }
      rmSync(`${copy}-shm`, { force: true });
      return copy;
    },
    freeBytes() {
      const { bavail, bsize } = statfsSync(reach(''));
      return bavail * bsize;
    },
    run(...command) {
      const [program, ...rest] = [...within, ...command];
      const { status, stdout, stderr } = spawnSync(program!, rest, { encoding: 'utf8' });
      return { status, said: stdout + stderr };
    },
    async close() {
      const ended = once(holder, 'exit');
      holder.stdin.end();
      await ended;
      rmSync(top, { recursive: true, force: true });
    },
  };
}

/** Null when it is mounted. */
async function readyOrWhy(holder: ChildProcessWithoutNullStreams): Promise<string | null> {
  let said = '';
  holder.stderr.on('data', (text: Buffer) => (said += text.toString()));
  return new Promise((resolve) => {
    holder.stdout.once('data', () => resolve(null));
    holder.once('error', (error) => resolve(error.message));
    holder.once('exit', () => resolve(said.trim() || 'unshare ended'));
  });
}

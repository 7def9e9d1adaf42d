/** Starts a real Chromium. None is a failure, never a skip. */

import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { chromium, type Browser } from 'playwright-core';

const CACHE = fileURLToPath(new URL('../../node_modules/.cache/', import.meta.url));
const INSTALLED = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium', '/usr/bin/google-chrome'];
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

/** The one in CHROMIUM_PATH if that is set, else the one that came with `npm ci`, else one that is installed. @param flags besides the usual */
export async function launchBrowser(flags: readonly string[] = []): Promise<Browser> {
  const tried: string[] = [];
  for (const pathOf of process.env['CHROMIUM_PATH'] ? [() => process.env['CHROMIUM_PATH']!] : [unpacked, ...installed()]) {
    try {
      return await chromium.launch({ executablePath: await pathOf(), args: [...FLAGS, ...flags] });
    } catch (error) {
      tried.push(String(error));
    }
  }
  throw new Error(
    `No browser starts. On Debian "apt-get install libnss3 libnspr4 libexpat1" brings what the packaged one lacks; CHROMIUM_PATH names another.\n${tried.join('\n')}`,
  );
}

const installed = () => INSTALLED.filter((path) => existsSync(path)).map((path) => () => path);

/**
 * The packaged browser, unpacked once. The package itself would share one folder of the machine between all who use it, half-written
 * and of whatever version; here it is unpacked aside and then put in place whole.
 */
async function unpacked(): Promise<string> {
  const place = join(CACHE, 'chromium');
  if (!existsSync(place)) {
    mkdirSync(CACHE, { recursive: true });
    const aside = mkdtempSync(join(CACHE, 'chromium-'));
    await promisify(execFile)(
      process.execPath,
      ['--input-type=module', '-e', "import c from '@sparticuz/chromium'; await c.executablePath()"],
      { cwd: fileURLToPath(new URL('../..', import.meta.url)), env: { ...process.env, TMPDIR: aside } },
    );
    try {
      renameSync(aside, place);
    } catch {
      // Another test was first.
      rmSync(aside, { recursive: true, force: true });
    }
  }
  return join(place, 'chromium');
}

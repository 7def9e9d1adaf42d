import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Builds the page once for all tests that open it. */
export function setup(): void {
  execFileSync(process.execPath, ['src/web/build-page.ts'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    stdio: 'inherit',
  });
}

/**
 * `npm run rig crash` puts a server under writing clients through what may happen to it, `npm run rig fuzz` sends it what no page would;
 * `npm run rig crash 1000` does it so many times. `SEED=n` draws others.
 * Everything is on loopback, in a folder or on a disk of its own, and stops by itself.
 */

const RIGS: Readonly<Record<string, () => Promise<{ run: (times: number | undefined, seed: number) => Promise<void> }>>> = {
  crash: () => import('./rig/crash.ts'),
  'full-disk': () => import('./rig/full-disk.ts'),
  fuzz: () => import('./rig/fuzz.ts'),
};

const [name = '', times] = process.argv.slice(2);
if (!(name in RIGS) || (times !== undefined && !/^[1-9]\d{0,6}$/.test(times))) {
  console.error(`Say which, and how often: npm run rig ${Object.keys(RIGS).join('|')} [times]`);
  process.exitCode = 1;
} else {
  const { run } = await RIGS[name]!();
  await run(times === undefined ? undefined : Number(times), Number(process.env['SEED'] ?? 1));
}

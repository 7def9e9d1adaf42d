/**
 * `npm run bench` runs every bench after the other, `npm run bench heat` one of them. Each prints ratios measured in one run on one
 * machine; absolute figures beside them are this machine's. No bench decides anything: tests do.
 */

const BENCHES: Readonly<Record<string, () => Promise<{ run: () => void | Promise<void> }>>> = {
  'main-job': () => import('./bench/main-job.ts'),
  heat: () => import('./bench/heat.ts'),
  uncertainty: () => import('./bench/uncertainty.ts'),
  price: () => import('./bench/price.ts'),
  search: () => import('./bench/search.ts'),
  'search-load': () => import('./bench/search-load.ts'),
  stock: () => import('./bench/stock.ts'),
  ladder: () => import('./bench/ladder.ts'),
  page: () => import('./bench/page.ts'),
  http: () => import('./bench/http.ts'),
  growth: () => import('./bench/growth.ts'),
  start: () => import('./bench/start.ts'),
};

// A number belongs to the bench before it.
const asked = process.argv.slice(2).filter((word) => !/^\d+$/.test(word));
const unknown = asked.filter((name) => !(name in BENCHES));
if (unknown.length > 0) {
  console.error(`No bench ${unknown.join(', ')}: there are ${Object.keys(BENCHES).join(', ')}`);
  process.exitCode = 1;
} else {
  for (const name of asked.length > 0 ? asked : Object.keys(BENCHES)) {
    console.log(`\n${name}`);
    const { run } = await BENCHES[name]!();
    await run();
  }
}

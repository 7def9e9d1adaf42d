import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { build, type Rollup } from 'vite';
import { expect, onTestFinished, test } from 'vitest';
import { brooch } from '../../seed/larger-designs.ts';
import { checkPlan } from '../../shared/sequencing/check-plan.ts';
import type { PlanSearchRequest } from '../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../shared/sequencing/search-plan.ts';
import { openBrowser } from '../support/browser.ts';
import { bench, pendant, solders } from '../support/pendant.ts';

const shared = fileURLToPath(new URL('../../shared/sequencing/', import.meta.url));
const WORKER = `
  import { checkPlan } from '${shared}check-plan.ts';
  import { searchPlan } from '${shared}search-plan.ts';
  self.onmessage = ({ data: request }) => {
    const { options, ...rest } = request;
    const found = searchPlan(request);
    self.postMessage({ found, checked: checkPlan({ ...rest, plan: found.plan }) });
  };`;

/** The engine and nothing else, as one module for a worker. */
async function workerModule(): Promise<string> {
  const [name, file] = ['engine-worker', '\0engine-worker'];
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    plugins: [{ name, resolveId: (id) => (id === name ? file : null), load: (id) => (id === file ? WORKER : null) }],
    build: { write: false, rollupOptions: { input: name } },
  });
  const [first] = (built as Rollup.RollupOutput).output;
  return first.code;
}

async function served(files: Record<string, { type: string; text: string }>): Promise<string> {
  const server = createServer((request, reply) => {
    const file = files[request.url ?? ''];
    reply.writeHead(file ? 200 : 404, { 'content-type': file?.type ?? 'text/plain' }).end(file?.text);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void server.close());
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

/** ECMA-262 leaves the last bit of exp, pow and their like to the engine (21.3.2, implementation-approximated); all else is the same. */
function toTheLastDigits(value: unknown): unknown {
  if (typeof value === 'number') return Number.isInteger(value) ? value : expect.closeTo(value, 6);
  if (Array.isArray(value)) return value.map(toTheLastDigits);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, toTheLastDigits(one)]));
}

const REQUESTS: Record<string, PlanSearchRequest> = {
  pendant: { design: pendant, solders, bench, options: { targetMarginK: 0 } },
  brooch: {
    design: brooch,
    solders,
    bench: { ...bench, torch: 'large' },
    options: { protections: [{ kind: 'anti_flow', maxPerHeat: 3 }, { kind: 'flame_away' }] },
  },
};

test('a worker of a browser finds and checks the same plans as Node, from the same code', async () => {
  const browser = await openBrowser();
  const url = await served({
    '/': { type: 'text/html', text: '<!doctype html><title>Engine</title>' },
    '/worker.js': { type: 'text/javascript', text: await workerModule() },
  });
  const page = await browser.newPage();
  await page.goto(url);
  for (const [name, request] of Object.entries(REQUESTS)) {
    const there = await page.evaluate<object>(`new Promise((resolve, reject) => {
      const worker = new Worker('/worker.js', { type: 'module' });
      worker.onmessage = ({ data }) => resolve(data);
      worker.onerror = ({ message }) => reject(new Error(message));
      worker.postMessage(${JSON.stringify(request)});
    })`);
    const { options: _options, ...rest } = request;
    const found = searchPlan(request);
    if (found.outcome === 'faults') throw new Error(`${name} has faults`);
    expect([name, found.outcome]).toEqual([name, expect.stringMatching(/^(optimal|feasible)$/)]);
    const here = { found, checked: checkPlan({ ...rest, plan: found.plan! }) };
    expect(there).toEqual(toTheLastDigits(JSON.parse(JSON.stringify(here))));
  }
});

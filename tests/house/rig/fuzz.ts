/**
 * Requests that no page would send, over every route of the OpenAPI document in any order: each is answered, never 5xx, as the document
 * promises; what is refused is told as a known problem, shows nothing of the inside, and has written nothing. The same seed sends the
 * same requests.
 */

import fc from 'fast-check';
import { aSmallStudio, type SmallStudio } from '../../support/a-small-studio.ts';
import { apiDocument, operationsOf, type Operation } from '../../support/api-document.ts';
import { committedWrites } from '../../support/committed-writes.ts';
import { holdAnswer } from '../../support/hold-answer.ts';
import { anySender, hostileCalls, withEtag } from '../../support/hostile-calls.ts';
import { noneUnderWay } from '../../support/plan-searches.ts';
import { rawClient, type RawRequest } from '../../support/raw-request.ts';
import { soundBodies } from '../../support/sound-bodies.ts';

/** After so many a new studio is made: the old one has by then closed, sold or used up most of what was in it. */
const ROUND = 1000;
const SLOW_MS = 1000;
const USUAL_WEIGHT = 40;

/** Fewer where one call computes for long or changes what all others go by, more where a sound one is rare. */
const WEIGHTS: Readonly<Record<string, number>> = {
  'POST /heats/:id/moves': 150,
  'POST /calculations/plan-search': 10,
  'POST /calculations/torch-calibration': 15,
  'POST /calibrations': 15,
  'POST /pieces/:id/plans': 25,
  'POST /plan-searches': 15,
  'POST /people': 15,
  'PATCH /people/:id': 15,
  'PATCH /settings': 15,
  'POST /sessions': 10,
  'POST /pins': 15,
  'POST /photos': 60,
  'POST /month-locks': 10,
};

/** Written though the request is refused, because the refusal itself is what is kept. */
const KEPT_OF_REFUSALS: Readonly<Record<string, string>> = {};

interface Call {
  operation: Operation;
  asked: RawRequest;
}

export interface FuzzReport {
  requests: number;
  seed: number;
  /** Answered as asked. */
  taken: number;
  statuses: Record<number, number>;
  routes: number;
  /** Of which no request was ever taken. */
  neverTaken: string[];
  /** Types of the problems that were told. */
  problems: string[];
  /** Answered late by the clock, and how long of that this thread computed for it: server and sender are one. */
  slow: { route: string; ms: number; cpuMs: number; status: number }[];
  faults: string[];
}

/** @param tell hears after each round how far it is */
export async function fuzz(
  requests: number,
  seed = 1,
  tell: (sent: number, so: FuzzReport) => void = () => {},
): Promise<FuzzReport> {
  const report: FuzzReport = {
    requests,
    seed,
    taken: 0,
    statuses: {},
    routes: 0,
    neverTaken: [],
    problems: [],
    slow: [],
    faults: [],
  };
  const routesTaken = new Set<string>();
  let routes: string[] = [];
  for (let sent = 0, round = 0; sent < requests; sent += ROUND, round++) {
    const closes: (() => void | Promise<void>)[] = [];
    const whenDone = (close: () => void | Promise<void>) => void closes.unshift(close);
    try {
      const studio = await aSmallStudio({ whenDone });
      routes = await sendRound(studio, { report, routesTaken, whenDone, count: Math.min(ROUND, requests - sent), round });
    } finally {
      for (const close of closes) await close();
    }
    tell(Math.min(sent + ROUND, requests), report);
  }
  report.routes = routes.length;
  report.neverTaken = routes.filter((route) => !routesTaken.has(route));
  report.problems.sort();
  report.slow.sort((a, b) => b.ms - a.ms);
  return report;
}

interface Round {
  report: FuzzReport;
  routesTaken: Set<string>;
  whenDone: (close: () => void) => void;
  count: number;
  round: number;
}

async function sendRound(studio: SmallStudio, { report, routesTaken, whenDone, count, round }: Round): Promise<string[]> {
  const document = await apiDocument(studio.owner);
  const operations = operationsOf(document);
  const known = { studio, document, bodies: await soundBodies(studio), senders: anySender(studio) };
  const aCall = fc.oneof(
    ...operations.map((operation) => ({
      weight: WEIGHTS[operation.route] ?? USUAL_WEIGHT,
      arbitrary: hostileCalls(operation, known).map((asked): Call => ({ operation, asked })),
    })),
  );
  const send = rawClient(studio.baseUrl, whenDone);
  const writes = committedWrites(studio);
  const calls = fc.sample(aCall, { seed: report.seed * 100_000 + round, numRuns: count });
  for (const [nth, { operation, asked }] of calls.entries()) {
    // What is under way writes lines of its own.
    await noneUnderWay(studio);
    // Reading it may be noted as a look at a client.
    const whole = await withEtag(asked, send);
    const before = writes();
    const begun = performance.now();
    const cpu = process.threadCpuUsage();
    try {
      const answer = await send(whole);
      const ms = Math.round(performance.now() - begun);
      const { user, system } = process.threadCpuUsage(cpu);
      if (ms > SLOW_MS)
        report.slow.push({ route: operation.route, ms, cpuMs: Math.round((user + system) / 1000), status: answer.status });
      report.statuses[answer.status] = (report.statuses[answer.status] ?? 0) + 1;
      const type = holdAnswer(operation, asked, answer);
      if (type === undefined) {
        report.taken++;
        routesTaken.add(operation.route);
        continue;
      }
      if (!report.problems.includes(type)) report.problems.push(type);
      const written = writtenBetween(before, writes());
      if (written.length > 0) throw new Error(`refused with ${answer.status}, and wrote ${written.join(', ')}`);
    } catch (fault) {
      const told = JSON.stringify({ ...asked, body: asked.body?.toString() });
      report.faults.push(`seed ${report.seed}, round ${round}, request ${nth}: ${(fault as Error).message}\n  ${told}`);
    }
  }
  return operations.map(({ route }) => route);
}

function writtenBetween(before: Record<string, number>, after: Record<string, number>): string[] {
  return Object.keys(after).filter((table) => after[table] !== (before[table] ?? 0) && !(table in KEPT_OF_REFUSALS));
}

export async function run(times = 100_000, seed = 1): Promise<void> {
  let told = 0;
  const { faults, slow, neverTaken, problems, statuses, ...counts } = await fuzz(times, seed, (sent, so) => {
    // At once: what hangs may end the rig before its table.
    for (const fault of so.faults.slice(told)) console.log(fault);
    told = so.faults.length;
    if (sent % 10_000 === 0)
      console.log(`${sent} sent, ${so.taken} taken, ${so.slow.length} over a second, ${so.faults.length} faults`);
  });
  console.table([{ ...counts, problems: problems.length, slow: slow.length, faults: faults.length }]);
  console.table([statuses]);
  if (slow.length > 0) console.table(slow.slice(0, 40));
  console.log(`Never taken: ${neverTaken.join(', ') || 'none'}`);
  if (faults.length > 0) process.exitCode = 1;
}

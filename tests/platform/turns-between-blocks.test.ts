import { setImmediate as nextTurn } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { pdfPaper } from '../../src/features/documents/pdf-paper.ts';
import { strong } from '../../src/features/labels/label.ts';
import { labelPdf } from '../../src/features/labels/label-pdf.ts';
import { aCutPiece } from '../support/at-the-bench.ts';
import { aDevice, heatInSteps } from '../support/bench-steps.ts';
import { startApp } from '../support/start-app.ts';

/** How often others had their turn before it was done. */
async function turnsDuring(work: Promise<unknown>): Promise<number> {
  const done = new AbortController();
  const ended = work.finally(() => done.abort());
  let turns = 0;
  for (; !done.signal.aborted; turns++) await nextTurn();
  await ended;
  return turns;
}

const said = { title: 'A paper', author: 'Quillwharf Bench', language: 'en' as const, writtenAt: '2031-05-05T08:00:00Z' };

test('a paper of many blocks, and a run of many labels, let others have their turn between them', async () => {
  const blocks = Array.from({ length: 60 }, (_, n) => ({ kind: 'paragraph' as const, text: `Heat ${n}` }));
  expect(await turnsDuring(pdfPaper({ ...said, size: 'A4', blocks }, () => ''))).toBeGreaterThanOrEqual(60);
  const label = { title: 'Lot L7', lines: [strong('L7')], address: 'https://studio.example/L7' };
  const labels = Array.from({ length: 40 }, () => label);
  expect(
    await turnsDuring(labelPdf({ ...said, run: { size: { widthMm: 50, heightMm: 25 }, used: 0, labels } })),
  ).toBeGreaterThanOrEqual(40);
});

test('steps of a device let others have their turn between them, but not what the same person sent later', async () => {
  const app = await startApp();
  const { heats, lots } = await aCutPiece(app);
  const sentAt = app.clock.now().toISOString();
  const times = Array.from({ length: 6 }, () => sentAt);
  const steps = await heatInSteps(app.bench, aDevice('tablet'), { heatId: heats[0]!.id, lots, times });
  const take = (some: typeof steps) => app.services.benchSteps.take(app.actors.bench, { sentAt, steps: some } as never);
  const sent = [take(steps.slice(0, 3)), take(steps.slice(3))];
  expect(await turnsDuring(Promise.all(sent))).toBeGreaterThanOrEqual(6);
  const answers = (await Promise.all(sent)).flatMap((reply) => reply.answers);
  expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200, 200]);
});

test('the description of the API is put together with turns for others between its routes', async () => {
  const { http } = await startApp();
  const asked = Promise.all(['/api/v1/openapi.json', '/docs/json'].map((url) => http.inject(url)));
  expect(await turnsDuring(asked)).toBeGreaterThan(200);
  const [document, ofPage] = (await asked).map((reply) => reply.json<{ paths: object }>());
  expect(Object.keys(document!.paths).length).toBeGreaterThan(150);
  expect(ofPage).toEqual(document);
});

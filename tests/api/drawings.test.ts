import { expect, test } from 'vitest';
import { aDrawnPiece } from '../support/at-the-bench.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { readSvg } from '../support/drawn-svg.ts';
import { pendant } from '../support/pendant.ts';
import { startApp, type Person } from '../support/start-app.ts';

const asText = (test: ReturnType<Person['get']>) =>
  test.buffer(true).parse((response, done) => {
    let text = '';
    response.on('data', (chunk: Buffer) => (text += chunk.toString()));
    response.on('end', () => done(null, text));
  });

test('GET /pieces/:id/drawing draws the design as it stands, for whoever may know the piece', async () => {
  const app = await startApp();
  const { bench, student } = app;
  const piece = await aDrawnPiece(app);
  const drawn = await asText(bench.get(`/pieces/${piece.id}/drawing`))
    .expect(200)
    .expect('content-type', 'image/svg+xml; charset=utf-8');
  expect(drawn.headers['etag']).toBe('"1"');
  const svg = drawn.body as string;
  expect(svg).toContain(`<title>${piece.number} Pendant</title>`);
  expect(svg).toContain('Joints: 1 wall-seam, 2 bezel');
  expect(readSvg(svg).texts).toEqual(expect.arrayContaining(['backplate', '30 × 20 × 0.8', '4', 'bail-on']));
  const plain = (await asText(bench.get(`/pieces/${piece.id}/drawing?labels=no`)).expect(200)).body as string;
  expect(readSvg(plain).texts).toEqual(['10 mm']);
  await student.get(`/pieces/${piece.id}/drawing`).expect(404);
  await bench.get(`/pieces/${piece.id}/drawing?labels=2`).expect(422);
});

test('a piece without a design has no drawing', async () => {
  const app = await startApp();
  const { id } = putPiece(app, await aCommission(app.desk));
  const missing = await app.bench.get(`/pieces/${id}/drawing`).expect(404);
  expect(missing.body.detail).toBe('Cannot draw C31-001.1: it has no design yet');
});

test('POST /calculations/drawing draws what it is given, and tells every fault of it', async () => {
  const { bench } = await startApp();
  const drawn = await asText(bench.post('/calculations/drawing', { design: pendant, title: 'A & B' })).expect(200);
  expect(drawn.body).toContain('<title>A &amp; B</title>');
  const [first, ...joints] = pendant.joints;
  const design = { ...pendant, joints: [{ ...first, closes: 'nobody' }, ...joints], rules: {} };
  const refused = await bench.post('/calculations/drawing', { design }).expect(422);
  expect(refused.body.errors[0].pointer).toBe('/design/joints/0/closes');
});

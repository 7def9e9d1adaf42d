import { expect, test } from 'vitest';
import { putPiece } from '../support/a-piece.ts';
import { putCommission } from '../support/a-record.ts';
import { eur } from '../support/a-quote.ts';
import { startApp, testClock } from '../support/start-app.ts';

const PATH = '/reports/hallmark-packets';

test('GET /reports/hallmark-packets tells how long packets were out, what was refused, and what a piece came to', async () => {
  const clock = testClock('2031-05-05T08:00:00Z');
  const app = await startApp({ clock });
  const { owner, desk, bench } = app;
  const commission = await putCommission(app, { state: 'on_bench', quantity: 3 });
  const pieces = [1, 2, 3].map((serial) => putPiece(app, commission, { serial, state: 'finishing' }));
  const packed = (index: number, partMarks: number) => ({
    pieceId: pieces[index]!.id,
    weighedG: 6,
    parts: 'ring',
    partMarks: eur(partMarks),
  });
  const packet = { place: 'DE', office: 'Harbour office', fee: eur(2500), post: eur(1100), perArticle: eur(65) };
  const add = async (body: object) => (await desk.post('/hallmark-packets', { ...packet, ...body }).expect(201)).body;
  const first = await add({ articles: 8, pieces: [packed(0, 120), packed(1, 0)] });
  const second = await add({ pieces: [packed(2, 0)] });
  const move = (id: string, from: string, to: string, extra: object = {}) =>
    desk.move(`/hallmark-packets/${id}`, { from, to, ...extra }, clock.now()).expect(200);
  await move(first.id, 'packing', 'sent');
  clock.advance({ days: 3 });
  await move(first.id, 'sent', 'there');
  await move(first.id, 'there', 'refused', { reason: 'under 925', refusedPieceIds: [pieces[1]!.id] });
  clock.advance({ days: 4 });
  const back = [0, 1].map((index) => ({ pieceId: pieces[index]!.id, weighedG: 5.9 }));
  await move(first.id, 'refused', 'back', { back });

  const report = (await owner.get(PATH).expect(200)).body;
  expect(report).toMatchObject({ today: '2031-05-12', totals: { packets: 2, pieces: 3, struck: 1, refused: 1, lost: 0 } });
  expect(report.rows).toEqual([
    {
      packetId: first.id,
      number: 'P1',
      place: 'DE',
      office: 'Harbour office',
      state: 'back',
      sentOn: '2031-05-05',
      backOn: '2031-05-12',
      days: 7,
      pieces: 2,
      refused: 1,
      // (25.00 + 11.00)/8 + 0.65 = 5.15 each, one with 1.20 of part marks: (6.35 + 5.15)/2.
      costPerPiece: eur(575),
      entries: { pieceIds: [pieces[0]!.id, pieces[1]!.id] },
    },
    // 25.00 + 11.00 + 0.65
    expect.objectContaining({
      packetId: second.id,
      state: 'packing',
      sentOn: null,
      backOn: null,
      days: null,
      costPerPiece: eur(3665),
    }),
  ]);
  // Costs are the owner's.
  for (const person of [desk, bench])
    expect((await person.get(PATH).expect(200)).body.rows).toMatchObject([{ costPerPiece: null }, { costPerPiece: null }]);
  expect((await owner.get(`${PATH}?from=2031-05-05&to=2031-05-05`).expect(200)).body.rows).toHaveLength(1);
  expect((await owner.get(`${PATH}?from=2031-05-06`).expect(200)).body).toMatchObject({ rows: [], totals: { packets: 0 } });
  expect((await owner.get(`${PATH}?to=2031-05-05&format=csv`).expect(200)).text).toBe(
    'packet,place,office,state,sent_on,back_on,days,pieces,refused,currency,cost_per_piece_in_currency\r\nP1,DE,Harbour office,back,2031-05-05,2031-05-12,7,2,1,EUR,5.75\r\n',
  );
  // Still out: the days go on.
  await move(second.id, 'packing', 'sent');
  clock.advance({ days: 2 });
  expect((await owner.get(`${PATH}?from=2031-05-06`).expect(200)).body.rows).toMatchObject([
    { number: 'P2', days: 2, backOn: null },
  ]);
});

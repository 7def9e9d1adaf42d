import { expect, test } from 'vitest';
import { freeHold } from '../../src/features/stock/holds.ts';
import { bookSolderUse, holdLotFit, holdSolder, offeredSolders } from '../../src/features/stock/index.ts';
import { writtenBy } from '../../src/platform/http/actor.ts';
import type { Problem } from '../../src/platform/http/problem.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { putHeat } from '../support/a-record.ts';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

function problemOf(call: () => unknown): Problem {
  try {
    call();
  } catch (error) {
    return error as Problem;
  }
  throw new Error('it was not refused');
}

test('offeredSolders() offers what is certainly free of cadmium and lead, with the grams that nothing holds', async () => {
  const app = await startApp();
  const { owner, db, clock, actors } = app;
  const hard = await addProduct(owner);
  await addProduct(owner, { code: 'old', cadmiumStanding: 'unknown' });
  await addProduct(owner, { code: 'soft', leadOrTinStanding: 'yes' });
  await receiveLot(owner, hard.id, { quantityG: 5 });
  await receiveLot(owner, hard.id, { quantityG: 7, markOnMetal: null });
  const piece = putPiece(app, await aCommission(owner));
  const by = writtenBy(actors.owner, clock.now());
  const at = clock.now();
  holdSolder(db, by, { pieceId: piece.id, productId: hard.id, tenthMg: 12_000, at });
  expect(offeredSolders(db, '2031-05-05')).toEqual([
    {
      id: 'hard_wire',
      solidusC: 740,
      liquidusC: 775,
      silverFraction: 0.75,
      availableG: 3.8,
      cadmiumStanding: 'no',
      densityGPerCm3: 9.97,
      smallestPieceG: 0.0013,
      metalFraction: 1,
      productId: hard.id,
      name: 'Hard wire',
      form: 'wire',
      pricePerG: '1.85',
    },
  ]);
  expect(freeHold(db, by, { pieceId: piece.id, at })).toMatchObject([{ kind: 'free', heldTenthMg: -12_000 }]);
  expect(freeHold(db, by, { pieceId: piece.id, at })).toEqual([]);
  expect(offeredSolders(db, '2031-05-05')[0]?.availableG).toBe(5);
});

test('holdLotFit() gives the lot, or says why a heat may not have it', async () => {
  const { owner, db, clock } = await startApp();
  const hard = await addProduct(owner);
  const paste = await addProduct(owner, { code: 'paste', name: 'Easy paste', form: 'paste', metalFraction: 0.7 });
  const lot = await receiveLot(owner, hard.id, { quantityG: 1 });
  const more = await receiveLot(owner, hard.id, { quantityG: 3 });
  const unmarked = await receiveLot(owner, hard.id, { markOnMetal: null });
  const doubtful = await receiveLot(owner, hard.id, { cadmiumStanding: 'unknown' });
  const old = await receiveLot(owner, paste.id, { useBy: '2031-05-20' });
  const fit = (lotId: string, { productId = hard.id, tenthMg = 5000, at = clock.now() } = {}) =>
    holdLotFit(db, { lotId, productId, heatId: 'none', tenthMg, at });

  expect(fit(lot.id).number).toBe('L1');
  const short = problemOf(() => fit(lot.id, { tenthMg: 10_201 }));
  expect(short.toJSON()).toMatchObject({
    status: 409,
    shortTenthMg: 201,
    offers: [{ lotId: more.id, number: 'L2', onHandG: 3 }],
  });
  expect(problemOf(() => fit(lot.id, { productId: paste.id })).message).toBe(
    'Cannot take lot L1: it is Hard wire, this heat asks for Easy paste',
  );
  expect(problemOf(() => fit(unmarked.id)).message).toBe('Cannot take lot L3: it is held back (no mark on the metal)');
  expect(problemOf(() => fit(doubtful.id)).slug).toBe('cadmium-blocks');
  expect(fit(old.id, { productId: paste.id, at: new Date('2031-05-20T23:00:00Z') }).number).toBe('L5');
  const past = problemOf(() => fit(old.id, { productId: paste.id, at: new Date('2031-05-21T01:00:00Z') }));
  expect(past.toJSON()).toMatchObject({ type: '/api/v1/problems/condition-not-met', useBy: '2031-05-20' });
  await owner.patch(`/solder-products/${hard.id}`, { cadmiumStanding: 'yes' }, 1).expect(200);
  expect(problemOf(() => fit(lot.id)).slug).toBe('cadmium-blocks');
});

test('bookSolderUse() opens the lot, takes from it and from the hold of the piece, at the time of the heat', async () => {
  const app = await startApp();
  const { owner, db, clock, actors } = app;
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { quantityG: 1 });
  const piece = putPiece(app, await aCommission(owner));
  const heatId = putHeat(app, { pieceId: piece.id, productId: product.id, number: 1 });
  const by = writtenBy(actors.bench, clock.now());
  holdSolder(db, by, { pieceId: piece.id, productId: product.id, tenthMg: 300, at: clock.now() });
  const at = new Date('2031-05-05T07:30:00Z');
  const book = (tenthMg: number) => bookSolderUse(db, by, { lotId: lot.id, pieceId: piece.id, heatId, tenthMg, at });
  expect(book(200)).toMatchObject({ kind: 'use', onHandTenthMg: -200, heldTenthMg: -200, at: '2031-05-05T07:30:00.000Z' });
  expect(book(200)).toMatchObject({ onHandTenthMg: -200, heldTenthMg: -100 });
  expect((await owner.get(`/solder-lots/${lot.id}`)).body).toMatchObject({ state: 'open', onHandG: 0.96 });
  expect(problemOf(() => book(10_000)).slug).toBe('solder-lot-short');
  expect((await owner.get('/stock')).body.items[0]).toMatchObject({ onHandG: 0.96, heldG: 0 });
});

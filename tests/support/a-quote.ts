import { aDrawer, aDrawnPiece } from './at-the-bench.ts';
import { pendantPlan } from './pendant.ts';
import type { Person, TestApp } from './start-app.ts';

/** Prices of an invented studio: fine silver at 1.05 a gram, tax of a fifth. */
export async function typePrices({ owner, clock }: TestApp, given: Record<string, unknown> = {}): Promise<void> {
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner
    .patch(
      '/settings',
      {
        finePrice: { perG: '1.05', typedAt: clock.now().toISOString(), source: 'the refiner’s page' },
        metalPrices: { 'sterling-925': { amount: '1.42', per: 'g' }, 'fine-silver-999': { amount: '46.00', per: 'ozt' } },
        tax: { rateFraction: 0.2, method: 'per_line' },
        ...given,
      },
      version,
    )
    .expect(200);
}

/** A commission with a pendant, drawn and planned, in a studio that has typed its prices. */
export async function aPricedPendant(
  app: TestApp,
  commission: Record<string, unknown> = {},
): Promise<{ commissionId: string; pieceId: string; number: string; products: Record<string, string> }> {
  await typePrices(app);
  const { products } = await aDrawer(app);
  const piece = await aDrawnPiece(app, commission);
  await app.bench.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201);
  return { commissionId: piece.commissionId, pieceId: piece.id, number: piece.number, products };
}

export interface Quote {
  id: string;
  number: number;
  version: number;
  gross: { amountMinor: number };
  deposit: { amountMinor: number };
}

export async function aSketch({ owner }: TestApp, commissionId: string, given: Record<string, unknown> = {}): Promise<Quote> {
  return (await owner.post('/quotes', { commissionId, ...given }).expect(201)).body;
}

export async function aSentQuote(app: TestApp, commissionId: string, given: Record<string, unknown> = {}): Promise<Quote> {
  const sketch = await aSketch(app, commissionId, given);
  return (await app.owner.move(`/quotes/${sketch.id}`, { from: 'sketch', to: 'sent' }, app.clock.now()).expect(200)).body;
}

export async function anAcceptedQuote(app: TestApp, commissionId: string, given: Record<string, unknown> = {}): Promise<Quote> {
  const sent = await aSentQuote(app, commissionId, given);
  return (await app.desk.move(`/quotes/${sent.id}`, { from: 'sent', to: 'accepted' }, app.clock.now()).expect(200)).body;
}

/** Takes a commission through the states named, each move by the owner. */
export async function takeThrough(
  owner: Person,
  commissionId: string,
  states: string[],
  extra: Record<string, unknown> = {},
): Promise<void> {
  for (const to of states) {
    const { state: from } = (await owner.get(`/commissions/${commissionId}`).expect(200)).body;
    await owner.move(`/commissions/${commissionId}`, { from, to, ...extra }).expect(200);
  }
}

export const eur = (amountMinor: number) => ({ amountMinor, currency: 'EUR' });

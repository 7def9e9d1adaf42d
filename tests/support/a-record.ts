import { eq } from 'drizzle-orm';
import { estimate } from '../../shared/costing/estimate.ts';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { benchTimes, commissions, designs, heats, plans, quotes, solderHistory } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import { aCommission } from './a-commission.ts';
import type { TestApp } from './start-app.ts';

/** Records as they stand in the book once the work was done, for tests of what is read from them. */

/** A commission in any state. */
export async function putCommission(app: TestApp, { state, ...fields }: { state: string; [field: string]: unknown }) {
  const commission = await aCommission(app.owner, fields);
  app.db.update(commissions).set({ state }).where(eq(commissions.id, commission.id)).run();
  return commission;
}

/** An accepted version, as its estimate was. */
export function putQuote({ db, clock }: TestApp, commissionId: string, request: EstimateRequest): string {
  const answer = estimate(request);
  const at = clock.now().toISOString();
  const row = {
    id: newId(clock.now()),
    commissionId,
    number: 1,
    state: 'accepted',
    recipe: 1,
    overrides: {},
    request,
    answer,
    currency: request.currency,
    netMinor: answer.totals.netMinor,
    grossMinor: answer.totals.grossMinor,
    depositMinor: answer.totals.depositMinor,
    finePricePerG: request.policy.finePricePerG,
    finePriceAt: at,
    validUntil: '2031-06-01',
    sentAt: at,
    answeredAt: at,
    createdAt: at,
  };
  return db.insert(quotes).values(row).returning().get().id;
}

/** Time at the bench that its person agreed to. */
export function putTime(
  { db, clock, actors }: TestApp,
  {
    pieceId,
    minutes,
    ratePerHour = '24.00',
    state = 'agreed',
    operation = 'sawing',
  }: { pieceId: string; minutes: number; ratePerHour?: string; state?: string; operation?: string },
): string {
  const at = clock.now();
  const row = {
    id: newId(at),
    personId: actors.bench.personId,
    pieceId,
    operation,
    startedAt: at.toISOString(),
    stoppedAt: new Date(at.getTime() + minutes * 60_000).toISOString(),
    ratePerHour,
    state,
    createdAt: at.toISOString(),
  };
  return db.insert(benchTimes).values(row).returning().get().id;
}

/** A heat of a piece, on a plan that says no more than that. */
export function putHeat(
  { db, clock, actors }: TestApp,
  { pieceId, productId, number }: { pieceId: string; productId: string; number: number },
): string {
  const createdAt = clock.now().toISOString();
  const [id, designId, planId] = [newId(clock.now()), newId(clock.now()), newId(clock.now())];
  const made = { pieceId, number, madeBy: actors.bench.personId, createdAt };
  db.insert(designs)
    .values({ ...made, id: designId, body: { parts: [], joints: [] } })
    .run();
  db.insert(plans)
    .values({
      ...made,
      id: planId,
      state: 'replaced',
      designId,
      origin: 'by_hand',
      body: { heats: [] },
      bench: { torch: 'medium', support: 'brick' },
      solders: [],
    })
    .run();
  db.insert(heats)
    .values({
      id,
      pieceId,
      planId,
      number,
      position: 1,
      joints: [],
      purpose: 'solder',
      productId,
      plannedTenthMg: 0,
      state: 'cleared',
      createdAt,
    })
    .run();
  return id;
}

export function putSoldering(
  { db, clock }: TestApp,
  soldering: { pieceId: string; heatId: string; jointId: string; productId: string; lotId: string; outcome: 'sound' | 'spoilt' },
): void {
  const at = clock.now();
  db.insert(solderHistory)
    .values({ ...soldering, id: newId(at), solidusC: 740, liquidusC: 775, tenthMg: 100, at: at.toISOString() })
    .run();
}

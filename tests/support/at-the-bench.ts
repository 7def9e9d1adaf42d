import { expect } from 'vitest';
import { aCommission } from './a-commission.ts';
import { pendant, pendantPlan } from './pendant.ts';
import { addProduct, receiveLot } from './stock.ts';
import type { Person, TestApp } from './start-app.ts';

/** A drawer with hard, medium and easy solder, one open lot of each; ids by code. */
export async function aDrawer({ owner }: TestApp): Promise<{ lots: Record<string, string>; products: Record<string, string> }> {
  const grades = [
    { code: 'hard', solidusC: 740, liquidusC: 788, silverFraction: 0.75 },
    { code: 'medium', solidusC: 691, liquidusC: 738, silverFraction: 0.7 },
    { code: 'easy', solidusC: 671, liquidusC: 718, silverFraction: 0.65 },
  ];
  const lots: Record<string, string> = {};
  const products: Record<string, string> = {};
  for (const grade of grades) {
    const product = await addProduct(owner, { ...grade, name: `${grade.code} wire`, gradeWord: grade.code });
    products[grade.code] = product.id;
    lots[grade.code] = (await receiveLot(owner, product.id, { quantityG: 5, markOnMetal: grade.code[0]!.toUpperCase() })).id;
  }
  return { lots, products };
}

/** A commission with one piece of it, laid out and with a design. */
export async function aDrawnPiece(
  { desk, bench }: TestApp,
  { design = pendant, ...commission }: { design?: object } & Record<string, unknown> = {},
): Promise<{ id: string; number: string; commissionId: string }> {
  const { id: commissionId } = await aCommission(desk, commission);
  const piece = await bench.post('/pieces', { commissionId, title: 'Pendant', metal: 'sterling-925' }).expect(201);
  await bench.put(`/pieces/${piece.body.id}/design`, design).expect(200);
  return piece.body;
}

/** A plan of the piece, checked and taken into use; its heats in order. */
export async function planInUse(person: Person, pieceId: string, asked: object = { plan: pendantPlan }) {
  const plan = (await person.post(`/pieces/${pieceId}/plans`, asked).expect(201)).body;
  await person.move(`/plans/${plan.id}`, { from: 'draft', to: 'checked' }).expect(200);
  await person.move(`/plans/${plan.id}`, { from: 'checked', to: 'in_use' }).expect(200);
  return { plan, heats: await heatsOf(person, plan.id) };
}

export interface Heat {
  id: string;
  number: string;
  joints: string[];
  state: string;
  [member: string]: unknown;
}

export async function heatsOf(person: Person, planId: string): Promise<Heat[]> {
  const found = (await person.get(`/heats?planId=${planId}`).expect(200)).body.items as Heat[];
  return found.toReversed();
}

export async function issueMetal(person: Person, pieceId: string): Promise<void> {
  await person.move(`/pieces/${pieceId}`, { from: 'drawn', to: 'cut', metalIssuedG: 7.5 }).expect(200);
}

/** A drawer, and a piece that is cut, with its plan in use. */
export async function aCutPiece(app: TestApp, commission: Record<string, unknown> = {}) {
  const drawer = await aDrawer(app);
  const piece = await aDrawnPiece(app, commission);
  const { plan, heats } = await planInUse(app.bench, piece.id);
  await issueMetal(app.bench, piece.id);
  return { ...drawer, piece, plan, heats };
}

/** All that a person says when a heat is ready, with the cautions it shows as due. */
export async function readiness(person: Person, heatId: string, lots: Record<string, string>) {
  const heat = (await person.get(`/heats/${heatId}`).expect(200)).body;
  const cautions = heat.cautions as { id: string; due: boolean }[];
  return {
    from: 'laid_out',
    to: 'primed',
    lotId: lots[heat.product.code],
    jointFitted: true,
    fluxOn: true,
    protectionsPlaced: true,
    cautionsRead: cautions.filter(({ due }) => due).map(({ id }) => id),
  };
}

/** From laid out to being looked at. */
export async function workToLooking(person: Person, heatId: string, lots: Record<string, string>): Promise<void> {
  const path = `/heats/${heatId}`;
  await person.move(path, await readiness(person, heatId, lots)).expect(200);
  await person.move(path, { from: 'primed', to: 'alight' }).expect(200);
  await person.move(path, { from: 'alight', to: 'cooling', seen: 'ran bright and even' }).expect(200);
  await person.move(path, { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true }).expect(200);
  await person.move(path, { from: 'in_pickle', to: 'looking' }).expect(200);
}

export const CLEARED = { from: 'looking', to: 'cleared', outcome: 'flowed', jointsSound: true, earlierJointsLookedAt: true };

/** A whole heat that goes well. */
export async function workHeat(person: Person, heatId: string, lots: Record<string, string>) {
  await workToLooking(person, heatId, lots);
  return (await person.move(`/heats/${heatId}`, CLEARED).expect(200)).body;
}

/** The states of a piece's joints by id. */
export async function jointStates(person: Person, pieceId: string): Promise<Record<string, string>> {
  const piece = (await person.get(`/pieces/${pieceId}`).expect(200)).body;
  const joints = piece.joints as { joint: string; state: string }[];
  expect(joints.length).toBeGreaterThan(0);
  return Object.fromEntries(joints.map(({ joint, state }) => [joint, state]));
}

import type { Person } from './start-app.ts';

/** Solder of an invented studio, as its packet would have it. */
export function aSolderProduct(given: Record<string, unknown> = {}) {
  return {
    code: 'hard_wire',
    name: 'Hard wire',
    gradeWord: 'hard',
    solidusC: 740,
    liquidusC: 775,
    silverFraction: 0.75,
    cadmiumStanding: 'no',
    leadOrTinStanding: 'no',
    form: 'wire',
    densityGPerCm3: 9.97,
    smallestPieceG: 0.0013,
    safetySheet: 'sheet 12 in the red folder',
    supplier: 'Harbour Metals',
    packG: 5,
    price: { amount: '1.85', per: 'g' },
    leadWeeks: 2,
    ...given,
  };
}

export function aSolderLot(productId: string, given: Record<string, unknown> = {}) {
  return {
    productId,
    receivedOn: '2031-05-05',
    quantityG: 20,
    unitCost: { amount: '1.85', per: 'g' },
    markOnMetal: 'H',
    ...given,
  };
}

export interface Stored {
  id: string;
  [member: string]: unknown;
}

export async function addProduct(owner: Person, given: Record<string, unknown> = {}): Promise<Stored> {
  return (await owner.post('/solder-products', aSolderProduct(given)).expect(201)).body as Stored;
}

export async function receiveLot(owner: Person, productId: string, given: Record<string, unknown> = {}): Promise<Stored> {
  return (await owner.post('/solder-lots', aSolderLot(productId, given)).expect(201)).body as Stored;
}

import type { Person } from './start-app.ts';

/** Metal of an invented supplier. */
export function aMetalProduct(given: Record<string, unknown> = {}) {
  return {
    name: 'Round wire 1.2',
    metal: 'sterling-925',
    form: { kind: 'round_wire', diameterMm: 1.2 },
    supplier: 'Harbour Metals',
    price: { amount: '46.00', per: 'ozt' },
    ...given,
  };
}

/** What a drawer has besides solder, made over HTTP, by the first part of its path. */
export async function aStockedDrawer(owner: Person, solderProductId: string): Promise<Record<string, string[]>> {
  const made = async (path: string, body: object) => (await owner.post(path, body).expect(201)).body.id as string;
  const supplier = await made('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 });
  const order = await made('/supplier-orders', { supplierId: supplier, lines: [{ productId: solderProductId, quantityG: 10 }] });
  const metal = await made('/metal-products', aMetalProduct());
  const sent = await made('/supplier-orders', { supplierId: supplier, lines: [{ metalProductId: metal, quantityG: 400 }] });
  await owner.move(`/supplier-orders/${sent}`, { from: 'to_order', to: 'sent' }).expect(200);
  const lot = await made('/metal-lots', { productId: metal, receivedOn: '2031-05-05', quantityG: 80 });
  // Of a lot that is not weighed: what a scale has seen since is not taken back.
  const ends = await made('/metal-lots', { productId: metal, receivedOn: '2031-05-05', quantityG: 20 });
  const movement = await made('/metal-movements', { kind: 'scrap', lotId: ends, quantityG: 1, reason: 'end pieces' });
  const supply = await made('/supplies', { name: 'Flux powder', kind: 'flux', unit: 'g', price: '0.018', pack: 500 });
  await made('/supply-movements', { kind: 'receive', supplyId: supply, quantity: 500 });
  const used = await made('/supply-movements', { kind: 'use', supplyId: supply, quantity: 20 });
  const stocktake = await made('/stocktakes', {});
  const baths = [await made('/pickle-baths', {}), await made('/pickle-baths', { acid: 'other' })];
  const scrap = await made('/scrap-returns', { jar: 'sweep', refiner: 'Millrace Refiners', weighedG: 30, sentOn: '2031-05-05' });
  return {
    'scrap-returns': [scrap],
    'pickle-baths': baths,
    stocktakes: [stocktake],
    suppliers: [supplier],
    'supplier-orders': [order, sent],
    'metal-products': [metal],
    'metal-lots': [lot],
    'metal-movements': [movement],
    supplies: [supply],
    'supply-movements': [used],
  };
}

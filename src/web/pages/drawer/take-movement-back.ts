import { api, bodyOf } from '../../api/client.ts';
import type { Sent } from '../../ui/take-back.tsx';

/** Takes a movement of a solder lot back by its opposite. */
export function takeSolderBack(id: string, { reason, headers }: Sent) {
  const sent = { params: { path: { id } }, body: { reason }, headers };
  return bodyOf(api.POST('/api/v1/stock-movements/{id}/reversals', sent));
}

/** The same of metal. */
export function takeMetalBack(id: string, { reason, headers }: Sent) {
  const sent = { params: { path: { id } }, body: { reason }, headers };
  return bodyOf(api.POST('/api/v1/metal-movements/{id}/reversals', sent));
}

/** The same of a supply. */
export function takeSupplyBack(id: string, { reason, headers }: Sent) {
  const sent = { params: { path: { id } }, body: { reason }, headers };
  return bodyOf(api.POST('/api/v1/supply-movements/{id}/reversals', sent));
}

/** Takes the arrival of a lot of solder back, as if it had never come. */
export async function takeLotBack(lotId: string, sent: Sent) {
  const { items } = await bodyOf(api.GET('/api/v1/stock-movements', { params: { query: { lotId, limit: 100 } } }));
  return takeSolderBack(items.find(({ kind }) => kind === 'receive')!.id, sent);
}

/** The same of a lot of metal. */
export async function takeMetalLotBack(lotId: string, sent: Sent) {
  const { items } = await bodyOf(api.GET('/api/v1/metal-movements', { params: { query: { lotId, limit: 100 } } }));
  return takeMetalBack(items.find(({ kind }) => kind === 'receive')!.id, sent);
}

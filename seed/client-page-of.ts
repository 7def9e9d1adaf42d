import type { Services } from '../src/services.ts';
import type { Actor } from '../src/platform/http/actor.ts';

/** A link to the page of a client who has an offer to answer: new each time, since the secret in it is kept nowhere. */
export function clientPageOf({ commissions, links }: Services, actor: Actor): { number: string; path: string } | null {
  const [offered] = commissions.list(actor, { state: 'offered', limit: 1 }).items;
  return offered ? { number: offered.number, path: links.add(actor, { commissionId: offered.id }).path } : null;
}

import type { FastifyInstance } from 'fastify';
import type { Role } from '../db/json-columns.ts';
import { effectiveRoles } from './actor.ts';

/** 'open': without sign-in. 'anyone': anyone signed in. Otherwise one of these roles; owner includes all, bench student. */
type Access = 'open' | 'anyone' | readonly Role[];

/**
 * Who may call what: the one table. A route that is not in it, or a line that has no route, stops the server at start.
 * Finer rules (own pieces, costs for the owner alone) are in the services, named in the remark.
 */
export const ACCESS = {
  'GET /health': 'open',
  'GET /openapi.json': 'open',
  'GET /problems/:slug': 'open',
  'GET /journal': ['owner'],
  'POST /people/first-owner': 'open',
  'POST /people': ['owner'],
  'GET /people': ['owner'],
  'GET /people/:id': ['owner'],
  'PATCH /people/:id': ['owner'],
  'POST /sessions': 'open',
  'GET /sessions/current': 'anyone',
  'DELETE /sessions/current': 'anyone',
  'POST /tokens': 'anyone',
  'GET /tokens': 'anyone',
  'DELETE /tokens/:id': 'anyone',
  'GET /settings': ['owner'],
  'PATCH /settings': ['owner'],
  'POST /calculations/plan-check': 'anyone',
  'POST /calculations/plan-search': 'anyone',
  'POST /calculations/plan-what-if': 'anyone',
  'POST /calculations/piece-weight': 'anyone',
  'POST /calculations/solder-use': 'anyone',
  'POST /calculations/estimate': 'anyone',
  'POST /calculations/hourly-rates': 'anyone',
  'POST /calculations/reorder-point': 'anyone',
  'POST /calculations/unit-conversion': 'anyone',
  'POST /calculations/torch-calibration': 'anyone',
  'POST /calculations/drawing': 'anyone',
  'GET /metals': 'anyone',
  'GET /metals/:id': 'anyone',
  'POST /metals': ['bench'],
  'PATCH /metals/:id': ['bench'],
  'GET /solder-grades': 'anyone',
  'POST /clients': ['desk'],
  'GET /clients': ['desk'],
  'GET /clients/:id': ['desk'],
  'PATCH /clients/:id': ['desk'],
  // Each step is held to what its own route is held to.
  'POST /bench/steps': ['student'],
  'GET /bench/now': ['student'],
  // One's own; the owner sees and mends everybody's.
  'POST /bench-times': 'anyone',
  'GET /bench-times': 'anyone',
  'GET /bench-times/current': 'anyone',
  'GET /bench-times/days': 'anyone',
  'POST /bench-times/:id/corrections': 'anyone',
  // The clock closes a month by itself; sooner, the owner.
  'POST /month-locks': ['owner'],
  'GET /month-locks': 'anyone',
  'GET /bench-times/:id': 'anyone',
  'PATCH /bench-times/:id': 'anyone',
  'POST /bench-times/:id/moves': 'anyone',
  'POST /commissions': ['desk'],
  // A bench hand sees no money and of the client the name alone; a student sees teaching pieces only.
  'GET /commissions': 'anyone',
  'GET /commissions/:id': 'anyone',
  'PATCH /commissions/:id': ['desk'],
  'GET /commissions/:id/cancellation-statement': ['owner'],
  // Who may make which move is in its life cycle.
  'POST /commissions/:id/moves': 'anyone',
  'POST /estimates': ['owner'],
  'POST /quotes': ['owner'],
  // The desk sees the page for the client; costs, rates and margin are the owner's.
  'GET /quotes': ['desk'],
  'GET /quotes/:id': ['desk'],
  'PATCH /quotes/:id': ['owner'],
  'POST /quotes/:id/moves': ['desk'],
  'POST /quotes/:id/what-if': ['owner'],
  'GET /quotes/:id/comparison': ['owner'],
  // Sending money back is the owner's.
  'POST /payments': ['desk'],
  'GET /payments': ['desk'],
  'POST /private-links': ['desk'],
  'GET /private-links': ['desk'],
  'GET /private-links/:id': ['desk'],
  'POST /private-links/:id/moves': ['desk'],
  'GET /client-messages': ['desk'],
  'GET /documents/quote-letters/:id': ['desk'],
  'GET /documents/payment-receipts/:id': ['desk'],
  'GET /documents/bills/:id': ['desk'],
  'GET /documents/balance-reminders/:id': ['desk'],
  'GET /documents/collection-notices/:id': ['desk'],
  'GET /documents/take-in-receipts/:id': ['desk'],
  'GET /documents/care-cards/:id': ['desk'],
  'GET /place-rules': 'anyone',
  'GET /place-rules/published': 'anyone',
  'GET /place-rules/:id': 'anyone',
  'PUT /place-rules/:id': ['owner'],
  'GET /place-rules/:id/added-metal': 'anyone',
  'POST /hallmark-packets': ['desk'],
  'GET /hallmark-packets': ['desk'],
  'GET /hallmark-packets/:id': ['desk'],
  'PATCH /hallmark-packets/:id': ['desk'],
  // Who may make which move is in its life cycle.
  'POST /hallmark-packets/:id/moves': ['desk'],
  // A student knows of practice pieces only, with their plans, heats and incidents.
  'POST /pieces': ['bench', 'desk'],
  'GET /pieces': 'anyone',
  'GET /pieces/:id': 'anyone',
  'PATCH /pieces/:id': ['bench', 'desk'],
  // Who may make which move is in its life cycle.
  'POST /pieces/:id/moves': 'anyone',
  'GET /pieces/:id/design': 'anyone',
  'GET /pieces/:id/drawing': 'anyone',
  'PUT /pieces/:id/design': ['bench', 'desk'],
  'POST /pieces/:id/joints/:jointId/moves': ['student'],
  'POST /pieces/:id/joints/:jointId/cadmium-documents': ['bench'],
  // A student drafts; a tutor signs.
  'POST /pieces/:id/plans': ['student'],
  'GET /pieces/:id/plans': 'anyone',
  'GET /plans/:id': 'anyone',
  'POST /plans/:id/check': ['student'],
  'POST /plans/:id/what-if': 'anyone',
  'POST /plans/:id/moves': ['student'],
  // Of a piece one knows of; of a design of no piece one's own, the owner everybody's.
  'POST /plan-searches': ['student'],
  'GET /plan-searches': 'anyone',
  'GET /plan-searches/:id': 'anyone',
  'GET /plan-searches/:id/events': 'anyone',
  'POST /plan-searches/:id/moves': ['student'],
  'POST /plan-searches/:id/plans': ['student'],
  'GET /heats': 'anyone',
  'GET /heats/:id': 'anyone',
  'POST /heats/:id/moves': ['student'],
  'POST /incidents': 'anyone',
  'GET /incidents': 'anyone',
  'GET /incidents/:id': 'anyone',
  // A bench hand closes what they saw themselves or a student did; the owner closes all.
  'PATCH /incidents/:id': ['bench'],
  'POST /incidents/:id/moves': ['bench'],
  'GET /cautions': 'anyone',
  'POST /torches': ['bench'],
  'GET /torches': 'anyone',
  'GET /torches/:id': 'anyone',
  'PATCH /torches/:id': ['bench'],
  // Of one's own hands; a student sees no other's.
  'POST /calibrations': ['student'],
  'GET /calibrations': ['student'],
  'GET /calibrations/:id': ['student'],
  // Prices are shown to owner and desk. Writing off, and taking back a receipt or a hold, is the owner's.
  'POST /solder-products': ['owner'],
  'GET /solder-products': 'anyone',
  'GET /solder-products/:id': 'anyone',
  'PATCH /solder-products/:id': ['owner'],
  'POST /solder-lots': ['desk'],
  'GET /solder-lots': 'anyone',
  'GET /solder-lots/:id': 'anyone',
  'POST /solder-lots/:id/moves': ['bench', 'desk'],
  'POST /solder-lots/:id/weighings': ['bench'],
  'POST /stock-movements': ['bench'],
  'GET /stock-movements': ['bench', 'desk'],
  'POST /stock-movements/:id/reversals': ['bench'],
  'GET /stock': 'anyone',
  'POST /stock/audit': ['bench', 'desk'],
  'GET /reorder-list': ['desk'],
  'GET /scrap-jars': ['bench', 'desk'],
  'POST /scrap-returns': ['desk'],
  'GET /scrap-returns': ['desk'],
  'GET /scrap-returns/:id': ['desk'],
  'POST /scrap-returns/:id/settlements': ['desk'],
  'POST /pickle-baths': ['bench'],
  'GET /pickle-baths': 'anyone',
  'GET /pickle-baths/:id': 'anyone',
  'GET /pickle-baths/:id/dips': ['bench', 'desk'],
  // Who may make which move is in its life cycle.
  'POST /pickle-baths/:id/moves': ['bench', 'desk'],
  'POST /stocktakes': ['bench'],
  'GET /stocktakes': ['bench', 'desk'],
  'GET /stocktakes/:id': ['bench', 'desk'],
  'POST /stocktakes/:id/counts': ['bench'],
  'POST /stocktakes/:id/moves': ['bench'],
  'POST /suppliers': ['desk'],
  'GET /suppliers': ['desk'],
  'GET /suppliers/:id': ['desk'],
  'PATCH /suppliers/:id': ['desk'],
  'POST /supplier-orders': ['desk'],
  'GET /supplier-orders': ['bench', 'desk'],
  'GET /supplier-orders/:id': ['bench', 'desk'],
  'PATCH /supplier-orders/:id': ['desk'],
  // Who may make which move is in its life cycle.
  'POST /supplier-orders/:id/moves': ['bench', 'desk'],
  'POST /supplier-orders/:id/deliveries': ['bench', 'desk'],
  'POST /metal-products': ['owner'],
  'GET /metal-products': 'anyone',
  'GET /metal-products/:id': 'anyone',
  'PATCH /metal-products/:id': ['owner'],
  'POST /metal-products/:id/measure': 'anyone',
  'POST /metal-lots': ['desk'],
  'GET /metal-lots': ['bench', 'desk'],
  'GET /metal-lots/:id': ['bench', 'desk'],
  'POST /metal-movements': ['bench'],
  'GET /metal-movements': ['bench', 'desk'],
  'POST /metal-movements/:id/reversals': ['bench'],
  // The owner accepts what is learned; of people it says nothing to anybody else.
  'GET /learned-factors/offers': ['owner'],
  'POST /learned-factors': ['owner'],
  'GET /learned-factors': ['owner'],
  'POST /benches': ['owner'],
  'GET /benches': 'anyone',
  'GET /benches/:id': 'anyone',
  'PATCH /benches/:id': ['owner'],
  'POST /absences': ['bench', 'desk'],
  'GET /absences': ['bench', 'desk'],
  'GET /absences/:id': ['bench', 'desk'],
  'PATCH /absences/:id': ['bench', 'desk'],
  'DELETE /absences/:id': ['bench', 'desk'],
  'GET /due-dates': ['bench', 'desk'],
  // Costs and margins are shown to the owner alone.
  'GET /reports/:name': ['bench', 'desk'],
} as const satisfies Readonly<Record<string, Access>>;

const ROLES: readonly Role[] = ['owner', 'bench', 'desk', 'student'];
const PREFIX = '/api/v1';
const table: Readonly<Record<string, Access>> = ACCESS;

/** What the table says of a route; undefined for one outside the API (documentation, the page's files). */
export function accessOf(method: string, url: string): Access | undefined {
  // Asking for the headers alone is for whoever may read.
  return url.startsWith(PREFIX) ? table[`${method === 'HEAD' ? 'GET' : method} ${url.slice(PREFIX.length)}`] : 'open';
}

/** Every role that a line of the table lets in, those that include one of its own among them. */
export function rolesLetIn(access: readonly Role[]): Role[] {
  return ROLES.filter((role) => [...effectiveRoles([role])].some((one) => access.includes(one)));
}

/** Holds table and routes equal. Call it before any route is registered. */
export function holdRoutesToAccessTable(app: FastifyInstance): void {
  const seen = new Set<string>();
  app.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) {
      if (one === 'HEAD' || one === 'OPTIONS' || !url.startsWith(PREFIX)) continue;
      if (accessOf(one, url) === undefined) throw new Error(`The route ${one} ${url} is not in the access table`);
      seen.add(`${one} ${url.slice(PREFIX.length)}`);
    }
  });
  app.addHook('onReady', async () => {
    const missing = Object.keys(table).filter((line) => !seen.has(line));
    if (missing.length > 0) throw new Error(`The access table names routes that do not exist: ${missing.join(', ')}`);
  });
}

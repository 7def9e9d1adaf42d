import type { FastifyInstance, FastifyRequest } from 'fastify';
import { actorOf } from '../../platform/http/actor.ts';
import type { ClientLookService, LookedAt } from './client-looks.ts';

interface Look {
  way: string;
  /** What was shown, by the reply where it is JSON, else by the request. */
  at: (reply: unknown, request: FastifyRequest) => LookedAt;
}

interface Line {
  id: string;
  commissionId?: string;
  clientName?: string | null;
  kind?: string;
  what?: string;
  thingId?: string;
}

const lines = (reply: unknown) => (reply as { items: Line[] }).items;
const ids = (all: readonly Line[]) => all.map(({ id }) => id);
const idAsked: Look['at'] = (_reply, { params }) => ({ clients: [(params as { id: string }).id] });
const paperAsked: Look['at'] = (_reply, { params }) => ({ of: [(params as { id: string }).id] });
const everybody: Look['at'] = () => 'everybody';
const ofCommissions: Look['at'] = (reply) => ({ of: lines(reply).map(({ commissionId }) => commissionId!) });
const ofOne: Look['at'] = (reply) => ({ of: [(reply as Line).commissionId!] });
/** Whoever is told no name learns nothing of the client. */
const named = (all: readonly Line[]): LookedAt => ({ of: ids(all.filter(({ clientName }) => clientName !== null)) });
const oneNamed: Look = { way: 'commission', at: (reply) => named([reply as Line]) };
const paper: Look = { way: 'paper', at: paperAsked };

/** Every route whose reply tells something of clients, and how it says of whom. */
const LOOKS: Readonly<Record<string, Look>> = {
  'GET /clients': { way: 'list', at: (reply) => ({ clients: ids(lines(reply)) }) },
  'GET /clients/:id': { way: 'client', at: idAsked },
  'GET /clients/:id/held': { way: 'held', at: idAsked },
  'GET /search': { way: 'search', at: (reply) => ({ clients: ids(lines(reply).filter(({ kind }) => kind === 'client')) }) },
  'GET /commissions': { way: 'commissions', at: (reply) => named(lines(reply)) },
  'GET /commissions/:id': oneNamed,
  'PATCH /commissions/:id': oneNamed,
  'POST /commissions/:id/moves': oneNamed,
  'GET /private-links': { way: 'link', at: ofCommissions },
  'GET /private-links/:id': { way: 'link', at: ofOne },
  'POST /private-links/:id/moves': { way: 'link', at: ofOne },
  'GET /client-messages': { way: 'message', at: ofCommissions },
  'GET /client-letters': { way: 'letter', at: ofCommissions },
  'GET /documents/quote-letters/:id': paper,
  'GET /documents/payment-receipts/:id': paper,
  'GET /documents/bills/:id': paper,
  'GET /documents/balance-reminders/:id': paper,
  'GET /documents/collection-notices/:id': paper,
  'GET /documents/take-in-receipts/:id': paper,
  'GET /documents/care-cards/:id': paper,
  'GET /exports/clients': { way: 'export', at: everybody },
  'POST /exports': { way: 'export', at: everybody },
  'GET /journal': {
    way: 'journal',
    at: (reply) => {
      const thingIds = lines(reply).map(({ thingId }) => thingId!);
      const own = new Set(lines(reply).flatMap(({ what, thingId }) => (what === 'client' ? [thingId!] : [])));
      return own.size > 0 ? { clients: [...own] } : { of: thingIds };
    },
  },
};

const PREFIX = '/api/v1';

const lookOf = ({ method, routeOptions: { url = '' } }: FastifyRequest) =>
  LOOKS[`${method === 'HEAD' ? 'GET' : method} ${url.slice(PREFIX.length)}`];

/** Notes every look at what is known of a client, once it is clear that it is shown. Call it before the routes are registered. */
export function noteLooks(api: FastifyInstance, looks: ClientLookService): void {
  const done = new WeakSet<FastifyRequest>();
  const note = (request: FastifyRequest, reply: unknown) => {
    const look = lookOf(request);
    if (!look || done.has(request)) return;
    done.add(request);
    looks.note(actorOf(request), look.way, look.at(reply, request));
  };
  // Before a copy of everything is made, so that it is in the copy.
  api.addHook('preHandler', async (request) => {
    if (lookOf(request)?.at === everybody) note(request, undefined);
  });
  api.addHook('preSerialization', async (request, { statusCode }, payload) => {
    if (statusCode < 300) note(request, payload);
    return payload;
  });
  // Papers and files are not serialized.
  api.addHook('onSend', async (request, { statusCode }, payload) => {
    if (statusCode < 300) note(request, undefined);
    return payload;
  });
}

import type { ACCESS } from './access-table.ts';

/** A line of the access table, or all that begin alike: "GET /pieces*" is every GET of pieces. */
type Route = keyof typeof ACCESS | `${string}*`;

/**
 * What holds besides the access table, within a route that a role may call. The services enforce it; here it is said, for the page of
 * the docs. A test holds every route named here to the access table.
 */
export const FINER_RULES: readonly { says: string; routes: readonly Route[] }[] = [
  {
    says: 'One’s own.',
    routes: ['GET /preferences', 'PUT /preferences', 'GET /sessions/current', 'DELETE /sessions/current', 'POST /pins'],
  },
  {
    says: 'Own ones; for the owner all.',
    routes: ['POST /tokens', 'GET /tokens', 'DELETE /tokens/:id', 'DELETE /pins/:id', 'GET /sessions', 'DELETE /sessions/:id'],
  },
  {
    says: 'Before there is an owner, on the machine itself or with the one-time code. Afterwards nobody.',
    routes: ['POST /samples/first-look'],
  },
  { says: 'Of the sample of one’s own browser.', routes: ['GET /samples/current', 'DELETE /samples/current'] },
  {
    says: 'For a device that the owner made a shared tablet. By a PIN everybody is bench or student at most, the owner too.',
    routes: ['GET /shared-tablets/current', 'POST /shared-tablets/current*'],
  },
  {
    says: 'Who only learns here knows of practice pieces alone, with their plans, heats, incidents and photos; of all others it is as if they were not there.',
    routes: [
      'GET /commissions*',
      'GET /pieces*',
      'GET /plans/*',
      'GET /heats*',
      'GET /incidents*',
      'GET /photos*',
      'GET /search',
      'GET /documents/student-sheets/:id',
      'GET /labels/pieces/:id',
      'POST /incidents',
      'POST /photos',
      'PATCH /photos/:id',
      'DELETE /photos/:id',
      'POST /heats/:id/moves',
      'POST /heats/:id/sightings',
      'PUT /plans/:id',
      'POST /plans/:id/*',
      'POST /pieces/:id/moves',
      'POST /pieces/:id/plans',
      'POST /pieces/:id/joints/:jointId/moves',
      'POST /plan-searches',
      'POST /bench-times',
      'GET /bench/now',
      'POST /bench/steps',
    ],
  },
  { says: 'Owner and desk find clients and suppliers too.', routes: ['GET /search'] },
  {
    says: 'Money and the client are for owner and desk; a bench hand is told the client’s name. What a commission has cost so far is for the owner.',
    routes: ['GET /commissions*', 'POST /commissions/:id/moves'],
  },
  {
    says: 'Who may make which move is in the life cycles below. Going on without what is missing is for the owner.',
    routes: [
      'POST /commissions/:id/moves',
      'POST /quotes/:id/moves',
      'POST /pieces/:id/moves',
      'POST /plans/:id/moves',
      'POST /heats/:id/moves',
      'POST /incidents/:id/moves',
      'POST /hallmark-packets/:id/moves',
      'POST /pickle-baths/:id/moves',
      'POST /solder-lots/:id/moves',
      'POST /stocktakes/:id/moves',
      'POST /supplier-orders/:id/moves',
    ],
  },
  { says: 'The desk sees the page for the client; costs, rates and margin are the owner’s.', routes: ['GET /quotes*'] },
  { says: 'Sending money back is the owner’s.', routes: ['POST /payments', 'POST /payments/:id/moves'] },
  { says: 'As making one by one; what a lot costs and who a client is, the export alone tells.', routes: ['POST /imports*'] },
  { says: 'Each step is held to what its own route is held to.', routes: ['POST /bench/steps'] },
  {
    says: 'One’s own; the owner sees and mends everybody’s.',
    routes: ['GET /bench-times*', 'POST /bench-times*', 'PATCH /bench-times/:id'],
  },
  { says: 'The clock closes a month by itself; sooner, the owner.', routes: ['POST /month-locks'] },
  {
    says: 'A student drafts; a tutor signs, and never for oneself.',
    routes: ['POST /pieces/:id/plans', 'POST /plans/:id/moves'],
  },
  {
    says: 'A student lights a heat with a tutor’s yes. With cadmium in the fire, or in doubt, nobody does: there is no way past it.',
    routes: ['POST /heats/:id/moves', 'POST /bench/steps'],
  },
  {
    says: 'For who only learns here, and of one’s own guesses; an owner or bench hand is shown the answer at once.',
    routes: ['POST /plans/:id/guesses', 'GET /plans/:id/guesses'],
  },
  {
    says: 'For who carries the tutor’s mark, by a PIN too: a tutor says yes at the bench. Never for oneself.',
    routes: ['POST /heats/:id/tutors-yes'],
  },
  {
    says: 'What is typed in is answered in full. What a student has yet to guess is held back with the piece that it is of.',
    routes: ['POST /calculations/plan-*'],
  },
  {
    says: 'Of a piece one knows of; of a design of no piece one’s own, the owner everybody’s.',
    routes: ['GET /plan-searches*', 'POST /plan-searches*'],
  },
  {
    says: 'A bench hand closes what they saw themselves or a student did, and changes it after; the owner all.',
    routes: ['PATCH /incidents/:id', 'POST /incidents/:id/moves'],
  },
  {
    says: 'Who added it says what it is, beside owner and desk. That the client may see it says the desk; of an incident, the owner; with a person in it, nobody.',
    routes: ['PATCH /photos/:id'],
  },
  { says: 'Who added it, and the owner.', routes: ['DELETE /photos/:id'] },
  { says: 'Of one’s own hands; a student sees no other’s.', routes: ['POST /calibrations', 'GET /calibrations*'] },
  {
    says: 'Prices are shown to owner and desk. Writing off, and taking back a receipt, a write-off or a hold, is the owner’s.',
    routes: ['GET /solder-*', 'GET /metal-*', 'GET /stock*', 'POST /stock-movements*', 'POST /metal-movements*'],
  },
  {
    says: 'Prices are shown to owner and desk. The desk receives; the bench uses and counts. Writing off, and taking back a receipt or a write-off, is the owner’s.',
    routes: ['GET /supplies*', 'GET /supply-movements', 'POST /supply-movements*'],
  },
  { says: 'An order under the supplier’s minimum is the owner’s to send.', routes: ['POST /supplier-orders/:id/moves'] },
  { says: 'Of people it says nothing to anybody else.', routes: ['GET /learned-factors*'] },
  { says: 'Each report says whose it is; costs and margins are the owner’s.', routes: ['GET /reports/:name'] },
];

/** What holds besides for a route. */
export function finerRulesOf(route: string): string[] {
  return FINER_RULES.filter(({ routes }) => routes.some((one) => isNamedBy(one, route))).map(({ says }) => says);
}

export function isNamedBy(one: string, route: string): boolean {
  return one.endsWith('*') ? route.startsWith(one.slice(0, -1)) : route === one;
}

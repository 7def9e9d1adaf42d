import type { Operation } from './api-document.ts';
import type { Hand, TwoOfEach } from './two-of-each.ts';
import { WHO_MAY } from './who-may.ts';
import { WHOSE, type Whose } from './whose.ts';

export type Outcome = 'in' | 'not-found' | 'forbidden';

/** Whose a thing is: of a piece that is for practice, of another, or somebody's own. */
export type Of = 'practice' | 'other' | Hand;

export interface Thing {
  id: string;
  of: Of;
}

export const nameOf = (of: Of): string => (typeof of === 'string' ? of : of.name);

const own = (of: Of, { personId, role }: Hand, besides: readonly string[] = []): boolean =>
  nameOf(of) !== of && ((of as Hand).personId === personId || besides.includes(role));

const ofPiece = (of: Of, { role }: Hand): Outcome => (role === 'student' && of === 'other' ? 'not-found' : 'in');
const changed = (of: Of, hand: Hand, besides: readonly string[]): Outcome =>
  ofPiece(of, hand) === 'not-found' ? 'not-found' : own(of, hand, besides) || besides.includes(hand.role) ? 'in' : 'forbidden';

/** By whose things a route is about: what somebody who may call it is answered about one of them. */
export const TOLD: Partial<Record<Whose, (of: Of, hand: Hand) => Outcome>> = {
  'one’s own, the owner everybody’s': (of, hand) => (own(of, hand, ['owner']) ? 'in' : 'not-found'),
  'one’s own, the bench everybody’s': (of, hand) => (own(of, hand, ['owner', 'bench']) ? 'in' : 'not-found'),
  'of a piece, or one’s own': (of, hand) =>
    typeof of === 'string' ? ofPiece(of, hand) : own(of, hand, ['owner']) ? 'in' : 'not-found',
  'practice pieces for who learns': ofPiece,
  'for who learns, of practice pieces': (of, hand) => (hand.role === 'student' ? ofPiece(of, hand) : 'forbidden'),
  'who added it, owner or desk': (of, hand) => changed(of, hand, ['owner', 'desk']),
  'who added it, or the owner': (of, hand) => changed(of, hand, ['owner']),
  'who saw it, or the owner': (of, hand) => {
    const sawByStudent = typeof of === 'object' && !['owner', 'bench'].includes(of.role);
    return sawByStudent ? 'in' : changed(of, hand, ['owner']);
  },
};

/** Papers and labels of things go by the things' own ids. */
const GROUPS: Readonly<Record<string, string>> = {
  'documents/student-sheets': 'plans',
  'documents/bench-sheets': 'plans',
  'documents/quote-letters': 'quotes',
  'documents/payment-receipts': 'payments',
  'documents/stocktake-sheets': 'stocktakes',
  'documents/packet-lists': 'hallmark-packets',
  'documents/care-cards': 'pieces',
  'documents/bills': 'commissions',
  'documents/balance-reminders': 'commissions',
  'documents/collection-notices': 'commissions',
  'documents/take-in-receipts': 'commissions',
  'labels/pieces': 'pieces',
  'labels/solder-lots': 'solder-lots',
  'labels/pickle-baths': 'pickle-baths',
};

/** The kind of thing a route's id is of, by the first part of the path that leads to one. */
export function groupOf({ path }: Pick<Operation, 'path'>): string {
  const [first = '', second] = path.slice(1).split('/');
  return GROUPS[`${first}/${second}`] ?? first;
}

/** Things of a kind, by whose they are; of everybody who is named their own. */
export function thingsOf({ practice, other, hands }: TwoOfEach, group: string, whose: readonly string[]): Thing[] {
  const ofPieces = (['practice', 'other'] as const).flatMap(
    (of) => ({ practice, other })[of][group]?.map((id) => ({ id, of })) ?? [],
  );
  const ofHands = hands.flatMap((of) => {
    const id = whose.includes(of.name) ? of.own[group] : undefined;
    return id === undefined ? [] : [{ id, of }];
  });
  return [...ofPieces, ...ofHands];
}

export function whoseIs(route: string): Whose {
  const found = (Object.keys(WHOSE) as Whose[]).find((whose) => (WHOSE[whose] as readonly string[]).includes(route));
  if (!found) throw new Error(`Nothing says whose things ${route} is about`);
  return found;
}

/** Whether a role is let in, for whoever has all that they have. */
export function mayCall(role: string, route: string): boolean {
  const [who = ''] = Object.entries(WHO_MAY).find(([, routes]) => routes.includes(route)) ?? [];
  return who === 'everybody' || who.startsWith('signed in') || who.split(' ').includes(role);
}

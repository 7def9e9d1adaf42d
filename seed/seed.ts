import type { Services } from '../src/app.ts';
import type { Db } from '../src/platform/db/client.ts';
import { benchWork, planPiece } from './bench-work.ts';
import { tell, type SeedClock, type Story } from './calendar.ts';
import { commissionStory, mutable, takeDown, type Order } from './commission-story.ts';
import { boxLid, earring, grainRing, pendant } from './designs.ts';
import { LARGER_ORDERS } from './larger-orders.ts';
import { sent } from './sent.ts';
import { openStudio, type Studio } from './studio.ts';

const WEEKS = 12;

/** Invented orders of the last twelve weeks, by the days since their first wish. */
const ORDERS: readonly (Order & { daysAgo: number })[] = [
  {
    daysAgo: 83,
    title: 'Ring with two grains',
    client: 'Millrace',
    kind: 'one_off',
    design: grainRing,
    dueInDays: 40,
    finePerG: '1.01',
    pace: 1.2,
  },
  {
    daysAgo: 78,
    title: 'Pendant for a green cabochon',
    client: 'Harbour',
    kind: 'one_off',
    design: pendant,
    dueInDays: 45,
    finePerG: '1.02',
    pace: 1.4,
    reflowsAt: 2,
  },
  {
    daysAgo: 70,
    title: 'Two earrings',
    client: null,
    kind: 'own_stock',
    design: earring,
    torch: 'small',
    quantity: 2,
    dueInDays: 60,
    finePerG: '1.02',
    pace: 0.9,
  },
  {
    daysAgo: 62,
    title: 'Lid for a round box',
    client: 'Tollgate',
    kind: 'one_off',
    design: boxLid,
    torch: 'large',
    dueInDays: 50,
    finePerG: '1.03',
    pace: 1.1,
  },
  {
    daysAgo: 55,
    title: 'Pendant with a bail',
    client: 'Saltmarsh',
    kind: 'one_off',
    design: pendant,
    dueInDays: 50,
    finePerG: '1.03',
    pace: 1.3,
    endsAt: 'offered',
  },
  {
    daysAgo: 48,
    title: 'Earrings for a wedding',
    client: 'Osier Holt',
    kind: 'one_off',
    design: earring,
    torch: 'small',
    quantity: 2,
    dueInDays: 44,
    finePerG: '1.04',
    pace: 1.15,
  },
  {
    daysAgo: 30,
    title: 'Ring for a birthday',
    client: 'Fen Lane',
    kind: 'one_off',
    design: grainRing,
    dueInDays: 45,
    finePerG: '1.05',
    pace: 1.25,
  },
  {
    daysAgo: 20,
    title: 'Pendant for the shelf',
    client: null,
    kind: 'own_stock',
    design: pendant,
    dueInDays: 60,
    finePerG: '1.05',
    pace: 1,
    endsAt: 'resting',
  },
  {
    daysAgo: 9.4,
    title: 'Pendant with a blue stone',
    client: 'Millrace',
    kind: 'one_off',
    design: pendant,
    dueInDays: 28,
    finePerG: '1.06',
    pace: 1.3,
    reflowsAt: 2,
  },
  {
    daysAgo: 8,
    title: 'Box lid with a knob',
    client: 'Weir House',
    kind: 'one_off',
    design: boxLid,
    torch: 'large',
    dueInDays: 35,
    finePerG: '1.06',
    pace: 1.1,
    endsAt: 'agreed',
  },
  {
    daysAgo: 6,
    title: 'Ring in three days',
    client: 'Quay Steps',
    kind: 'one_off',
    design: grainRing,
    dueInDays: 9,
    finePerG: '1.06',
    pace: 1,
    endsAt: 'turned_down',
  },
  {
    daysAgo: 4,
    title: 'Earrings, plain',
    client: 'Tollgate',
    kind: 'one_off',
    design: earring,
    torch: 'small',
    quantity: 2,
    dueInDays: 30,
    finePerG: '1.06',
    pace: 1,
    endsAt: 'offered',
  },
  {
    daysAgo: 3,
    title: 'Pendant, larger',
    client: 'Harbour',
    kind: 'one_off',
    design: pendant,
    dueInDays: 40,
    finePerG: '1.06',
    pace: 1,
    endsAt: 'shaping',
  },
  {
    daysAgo: 1,
    title: 'Lid to match a box',
    client: 'Saltmarsh',
    kind: 'one_off',
    design: boxLid,
    dueInDays: 60,
    finePerG: '1.06',
    pace: 1,
    endsAt: 'asked',
  },
];

/** Solder of the Tuesday class in grams, week by week: it comes in lumps. */
const CLASS_USE_G: Readonly<Record<string, readonly number[]>> = {
  'hard-sheet': [0.9, 0, 1.4, 0.6, 0, 1.1, 0, 0.8, 1.6, 0, 0.7, 1.2],
  'medium-sheet': [0.7, 0.5, 0, 0.9, 0.4, 0, 1.1, 0, 0.6, 0.8, 0, 0.5],
  'easy-sheet': [0.4, 0, 0.3, 0, 0.6, 0.2, 0, 0.5, 0, 0.3, 0.4, 0],
};

/** Twelve weeks of the invented studio, made by calling the services at the time it says they were called. */
export async function seedStudio(db: Db, services: Services, clock: SeedClock): Promise<void> {
  const end = clock.now();
  clock.to(new Date(end.getTime() - WEEKS * 7 * 86_400_000));
  const studio = openStudio(db, services, clock);
  await tell(clock, new Date(end.getTime() - 2 * 3_600_000), [
    ...[...ORDERS, ...LARGER_ORDERS].map(({ daysAgo, ...order }) => ({ daysAgo, story: commissionStory(studio, order) })),
    { daysAgo: WEEKS * 7 - 2, story: eveningClass(studio) },
    { daysAgo: 5, story: practicePiece(studio) },
  ]);
  clock.letGo();
}

async function* eveningClass(studio: Studio): Story {
  const { services, people, lots } = studio;
  for (let week = 0; week < WEEKS; week++) {
    for (const [code, gramsByWeek] of Object.entries(CLASS_USE_G)) {
      const quantityG = gramsByWeek[week]!;
      if (quantityG > 0)
        services.stockMovements.add(people.bench, { kind: 'use', lotId: lots[code]!, quantityG, reason: 'evening class' });
    }
    benchWork(studio, null, 'teaching', 120);
    yield 7;
  }
}

/** A student's pendant: drawn, planned by the student, waiting for a tutor's yes. */
async function* practicePiece(studio: Studio): Story {
  const { services, people, clock } = studio;
  const { pieces, designs, plans } = services.bench;
  const order: Order = { ...PRACTICE, design: pendant };
  const commission = takeDown(studio, order);
  yield 1;
  services.commissions.move(people.owner, commission.id, sent(clock, 'asked', 'shaping'));
  services.commissions.move(people.owner, commission.id, sent(clock, 'shaping', 'agreed'));
  const piece = pieces.add(people.bench, { commissionId: commission.id, title: 'Practice pendant', metal: 'sterling-925' });
  designs.put(people.bench, piece.id, () => 0, mutable(pendant));
  yield 1;
  const plan = await planPiece(services, people.student, piece.id, { search: { policy: 'do_not_run', targetMarginK: 0 } });
  plans.move(people.student, plan.id, sent(clock, 'draft', 'checked'));
}

const PRACTICE = {
  title: 'Practice pendant',
  client: null,
  kind: 'teaching_piece',
  dueInDays: 40,
  finePerG: '1.06',
  pace: 2,
} as const;

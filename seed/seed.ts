import type { Services } from '../src/services.ts';
import type { Db } from '../src/platform/db/client.ts';
import { benchWork } from './bench-work.ts';
import { tell, type SeedClock, type SeedStep, type Story } from './calendar.ts';
import { commissionStory, type Order } from './commission-story.ts';
import { boxLid, earring, grainRing, pendant } from './designs.ts';
import { LARGER_ORDERS } from './larger-orders.ts';
import { enterPlaceRules } from './marking.ts';
import { practicePiece, practiceRing } from './practice.ts';
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
    noFlowAt: 1,
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
    noFlowAt: 1,
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
    marked: 'shank and two grains, soldered',
  },
  {
    daysAgo: 19,
    title: 'Ring for a name day',
    client: 'Saltmarsh',
    kind: 'one_off',
    design: grainRing,
    dueInDays: 40,
    finePerG: '1.05',
    pace: 1.1,
    marked: 'shank and two grains, soldered',
    endsAt: 'at_the_office',
  },
  {
    daysAgo: 18,
    title: 'Ring for a daughter',
    client: 'Osier Holt',
    kind: 'one_off',
    design: grainRing,
    dueInDays: 35,
    finePerG: '1.05',
    pace: 1.05,
    endsAt: 'made',
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
    daysAgo: 46,
    title: 'Pendant for a godchild',
    client: 'Weir House',
    kind: 'one_off',
    design: pendant,
    dueInDays: 42,
    finePerG: '1.04',
    pace: 1.2,
    endsAt: 'resting',
  },
  {
    daysAgo: 14,
    title: 'Earrings for a fair',
    client: 'Quay Steps',
    kind: 'one_off',
    design: earring,
    torch: 'small',
    quantity: 2,
    dueInDays: 14,
    finePerG: '1.06',
    pace: 1,
    endsAt: 'agreed',
  },
  {
    daysAgo: 11,
    title: 'Box lid with a knob',
    client: 'Weir House',
    kind: 'one_off',
    design: boxLid,
    torch: 'large',
    dueInDays: 35,
    finePerG: '1.06',
    pace: 1.1,
    endsAt: 'on_bench',
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
    left: [
      {
        what: 'Round box without its lid, mark illegible',
        weightG: 84.6,
        declaredValue: { amountMinor: 30000, currency: 'EUR' },
      },
    ],
  },
];

/** Solder of the Tuesday class in grams, week by week: it comes in lumps. */
const CLASS_USE_G: Readonly<Record<string, readonly number[]>> = {
  'hard-sheet': [0.9, 0, 1.4, 0.6, 0, 1.1, 0, 0.8, 1.6, 0, 0.7, 1.2],
  'medium-sheet': [0.7, 0.5, 0, 0.9, 0.4, 0, 1.1, 0, 0.6, 0.8, 0, 0.5],
  'easy-sheet': [0.4, 0, 0.3, 0, 0.6, 0.2, 0, 0.5, 0, 0.3, 0.4, 0],
};

/**
 * Twelve weeks of the invented studio, made by calling the services at the time it says they were called.
 *
 * @param onBegin hears of each commission, class and practice piece as it begins
 */
export async function seedStudio(
  db: Db,
  services: Services,
  clock: SeedClock,
  onBegin?: (step: SeedStep) => void,
): Promise<void> {
  const end = clock.now();
  clock.to(new Date(end.getTime() - WEEKS * 7 * 86_400_000));
  const studio = openStudio(db, services, clock);
  enterPlaceRules(studio);
  const stories = [
    ...[...ORDERS, ...LARGER_ORDERS].map(({ daysAgo, ...order }) => ({
      title: order.title,
      daysAgo,
      story: commissionStory(studio, order),
    })),
    { title: 'Evening class', daysAgo: WEEKS * 7 - 2, story: eveningClass(studio) },
    { title: 'Practice ring', daysAgo: 26, story: practiceRing(studio) },
    { title: 'Practice piece', daysAgo: 5, story: practicePiece(studio) },
  ];
  await tell(clock, new Date(end.getTime() - 2 * 3_600_000), stories, onBegin);
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

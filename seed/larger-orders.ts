import type { Design } from '../shared/design/design.ts';
import type { Plan } from '../shared/design/plan.ts';
import type { Order } from './commission-story.ts';
import { bangle, beaker, brooch, links } from './larger-designs.ts';

/** The row of links in a silver of the studio's own. */
const ownLinks: Design = { ...links, parts: links.parts.map((part) => ({ ...part, metal: 'quill-950' })) };

/** By hand: a beaker takes seconds to look through, and the hand knows its order. */
const beakerPlan: Plan = {
  heats: [
    { joints: ['wall-seam'], solder: 'hard-sheet' },
    { joints: ['foot-seam'], solder: 'hard-sheet' },
    { joints: ['base-on'], solder: 'medium-sheet' },
    { joints: ['foot-on'], solder: 'easy-sheet' },
  ],
};

/**
 * Invented orders of larger pieces. The heats of the bangle are timed, a tenth quicker than predicted (that too is invented): from then
 * on plans with the studio's torch go by its calibration, that of the brooch the first.
 */
export const LARGER_ORDERS: readonly (Order & { daysAgo: number })[] = [
  {
    daysAgo: 74,
    title: 'Bangle with hinge and catch',
    client: 'Weir House',
    kind: 'one_off',
    design: bangle,
    torch: 'own',
    dueInDays: 55,
    finePerG: '1.02',
    pace: 1.25,
    timedAt: 0.9,
  },
  {
    daysAgo: 44,
    title: 'Row of five links',
    client: null,
    kind: 'own_stock',
    design: ownLinks,
    metal: 'quill-950',
    torch: 'small',
    dueInDays: 60,
    finePerG: '1.04',
    pace: 1.05,
  },
  {
    daysAgo: 26,
    title: 'Brooch with pin and catch',
    client: 'Quay Steps',
    kind: 'one_off',
    design: brooch,
    torch: 'own',
    dueInDays: 45,
    finePerG: '1.05',
    pace: 1.2,
  },
  {
    daysAgo: 11,
    title: 'Beaker on a foot',
    client: 'Osier Holt',
    kind: 'one_off',
    design: beaker,
    torch: 'extra_large',
    byHand: beakerPlan,
    dueInDays: 70,
    finePerG: '1.06',
    pace: 1.1,
    endsAt: 'agreed',
  },
];

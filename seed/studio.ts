/** Quillwharf Bench: an invented studio. Its people, clients, suppliers, prices and figures are made up for the demo. */

import type { Plan } from '../shared/design/plan.ts';
import type { Services } from '../src/services.ts';
import { actorFrom } from '../src/features/people/keys.service.ts';
import { insertPerson } from '../src/features/people/people.store.ts';
import type { Db } from '../src/platform/db/client.ts';
import type { Role } from '../src/platform/db/json-columns.ts';
import type { Actor } from '../src/platform/http/actor.ts';
import { newId } from '../src/platform/ids.ts';
import type { SeedClock } from './calendar.ts';

export const STUDIO_NAME = 'Quillwharf Bench';

export interface Studio {
  services: Services;
  clock: SeedClock;
  people: Record<Role, Actor>;
  /** Open lots by product code. */
  lots: Record<string, string>;
  /** The studio's own torch. */
  torchId: string;
  /** What every heat is pickled in. */
  bathId: string;
  /** Plans that were found, by the design and the torch: whoever makes such a piece again does not look for one again. */
  found: Map<string, Plan>;
}

const PEOPLE: Readonly<Record<Role, { name: string; benchMinutesPerDay: number | null; ratePerHour: string | null }>> = {
  owner: { name: 'Flint', benchMinutesPerDay: 240, ratePerHour: '28.00' },
  bench: { name: 'Basalt', benchMinutesPerDay: 330, ratePerHour: '24.00' },
  desk: { name: 'Tamarisk', benchMinutesPerDay: null, ratePerHour: '20.00' },
  student: { name: 'Pebble', benchMinutesPerDay: 120, ratePerHour: null },
};

/** Melting points as the table of solder grades has them; prices and suppliers are invented. */
const PRODUCTS = [
  {
    code: 'hard-sheet',
    gradeWord: 'hard',
    form: 'sheet',
    solidusC: 740,
    liquidusC: 788,
    silverFraction: 0.75,
    densityGPerCm3: 9.97,
    mark: 'H',
    grams: [20, 15],
  },
  {
    code: 'medium-sheet',
    gradeWord: 'medium',
    form: 'sheet',
    solidusC: 691,
    liquidusC: 738,
    silverFraction: 0.7,
    densityGPerCm3: 9.7,
    mark: 'M',
    grams: [7],
  },
  {
    code: 'easy-sheet',
    gradeWord: 'easy',
    form: 'sheet',
    solidusC: 671,
    liquidusC: 718,
    silverFraction: 0.65,
    densityGPerCm3: 9.5,
    mark: 'E',
    grams: [15],
  },
  {
    code: 'extra-easy-paste',
    gradeWord: 'extra-easy',
    form: 'paste',
    solidusC: 618,
    liquidusC: 652,
    silverFraction: 0.56,
    densityGPerCm3: 9.2,
    mark: null,
    grams: [10],
  },
] as const;

/** A silver that no table has; the sheet and its numbers are invented. What it does not say is assumed from the nearest metal. */
const OWN_METAL = {
  id: 'quill-950',
  name: 'Quillwharf 950',
  kind: 'silver',
  finenessFraction: { value: 0.95, source: 'the stamp on the wire' },
  solidusC: { value: 868, source: 'sheet of Alder Street Metals (invented)' },
  liquidusC: { value: 928, source: 'sheet of Alder Street Metals (invented)' },
  densityGPerCm3: { value: 10.41, source: 'weighed in water at the bench' },
} as const;

/** Benches of the studio and who works at each. */
const BENCHES: readonly { name: string; role: Role }[] = [
  { name: 'Anvil', role: 'bench' },
  { name: 'Lantern', role: 'owner' },
  { name: 'Heron', role: 'student' },
];

/** Torches beside the long one; their numbers are the engine's own for each size. */
const MORE_TORCHES = [
  { name: 'Hand torch', torch: 'small' },
  { name: 'Middle torch', torch: 'medium' },
  { name: 'Forge torch', torch: 'extra_large' },
] as const;

/** What else lies in the drawer; prices are invented, for a gram or a piece. */
const SUPPLIES = [
  { name: 'Borax flux powder', kind: 'flux', unit: 'g', price: '0.018', pack: 500, orderPoint: 150, came: 500, used: 370 },
  {
    name: 'Sodium bisulphate',
    kind: 'pickle_salt',
    unit: 'g',
    price: '0.012',
    pack: 1000,
    orderPoint: 200,
    came: 1000,
    used: 300,
  },
  {
    name: 'Propane, 5 kg cylinder',
    kind: 'gas',
    unit: 'g',
    price: '0.004',
    pack: 5000,
    orderPoint: 1500,
    came: 10_000,
    used: 4200,
  },
  { name: 'Ear posts 0.9 mm', kind: 'finding', unit: 'piece', price: '0.35', pack: 20, orderPoint: 10, came: 40, used: 14 },
  { name: 'Moonstone cabochon 6 mm', kind: 'stone', unit: 'piece', price: '4.50', pack: 1, orderPoint: null, came: 6, used: 2 },
] as const;

/** People, benches and torches, a metal, settings and a drawer with solder. */
export function openStudio(db: Db, services: Services, clock: SeedClock): Studio {
  const people = Object.fromEntries(
    Object.entries(PEOPLE).map(([role, person]) => [role, addPerson(db, clock, role as Role, person)]),
  ) as Record<Role, Actor>;
  const torch = services.torches.add(people.bench, { name: 'Long torch', torch: { powerW: 480, spreadMm: 14, gasC: 1500 } });
  for (const one of MORE_TORCHES) services.torches.add(people.bench, one);
  for (const { name, role } of BENCHES)
    services.studioDays.addBench(people.owner, { name, personId: people[role].personId, minutesPerDay: null });
  services.metals.add(people.bench, OWN_METAL);
  services.settings.change(people.owner, 0, {
    studioName: STUDIO_NAME,
    timeZone: 'Europe/Berlin',
    metalPrices: {
      'sterling-925': { amount: '1.42', per: 'g' },
      'fine-silver-999': { amount: '1.78', per: 'g' },
      [OWN_METAL.id]: { amount: '1.61', per: 'g' },
    },
    tax: { rateFraction: 0.2, method: 'per_line' },
    papers: {
      address: '4 Quillwharf Steps\n00000 Lantern Quay\n+49 30 0000 0000 · bench@quillwharf.example',
      payTo: 'Quillwharf Bench\nHarbour Bank, account 0000 0000 00',
    },
    privateLinks: { on: true },
  });
  const lots: Record<string, string> = {};
  for (const { mark, grams, ...product } of PRODUCTS) {
    const { id } = services.solderProducts.add(people.owner, {
      ...product,
      name: `Silver solder ${product.gradeWord}, ${product.form}`,
      cadmiumStanding: 'no',
      leadOrTinStanding: 'no',
      ...(product.form === 'paste' ? { metalFraction: 0.7 } : {}),
      smallestPieceG: product.form === 'paste' ? 0.01 : 0.0013,
      safetySheet: 'red folder, page 4',
      supplier: product.form === 'paste' ? 'Tidepool Supplies' : 'Alder Street Metals',
      packG: product.form === 'paste' ? 10 : 5,
      price: { amount: product.form === 'paste' ? '6.40' : '1.85', per: 'g' },
      leadWeeks: 2,
    });
    for (const quantityG of grams) {
      const lot = services.solderLots.receive(people.desk, {
        productId: id,
        receivedOn: clock.now().toISOString().slice(0, 10),
        quantityG,
        unitCost: { amount: product.form === 'paste' ? '6.10' : '1.80', per: 'g' },
        markOnMetal: mark,
        useBy: null,
      });
      lots[product.code] ??= lot.id;
    }
  }
  for (const { came, used, ...supply } of SUPPLIES) {
    const { id } = services.supply.supplies.add(people.owner, {
      ...supply,
      supplier: 'Alder Street Metals',
      safetySheet: supply.unit === 'g' ? 'red folder, page 7' : null,
    });
    services.supply.supplyMovements.add(people.desk, { kind: 'receive', supplyId: id, quantity: came });
    services.supply.supplyMovements.add(people.bench, { kind: 'use', supplyId: id, quantity: used });
  }
  const bath = services.baths.mix(people.bench, {});
  return { services, clock, people, lots, torchId: torch.id, bathId: bath.id, found: new Map() };
}

/** The fine price as the owner types it on the day, so that a quote may be sent. It goes up slowly. */
export function typeFinePrice({ services, people, clock }: Studio, perG: string): void {
  const { version } = services.settings.get();
  services.settings.change(people.owner, version, {
    finePrice: { perG, typedAt: clock.now().toISOString(), source: 'the morning list (invented)' },
  });
}

function addPerson(db: Db, clock: SeedClock, role: Role, person: (typeof PEOPLE)[Role]): Actor {
  const at = clock.now();
  const row = insertPerson(db, { id: newId(at), ...person, roles: [role], tutor: role === 'owner', createdAt: at.toISOString() });
  return { ...actorFrom(row), deviceId: 'desk' };
}

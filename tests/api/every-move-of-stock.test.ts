import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import type { Thing } from '../../shared/lifecycles/lifecycles.ts';
import { hallmarkPackets, pickleBaths, privateLinks, stocktakes, supplierOrders } from '../../src/platform/db/tables.ts';
import type { ACCESS } from '../../src/platform/http/access-table.ts';
import { aSmallStudio } from '../support/a-small-studio.ts';
import { holdToMachine, reading } from '../support/every-move.ts';
import { THINGS } from '../support/life-cycle-machine.ts';

/** Each kind with its table and its room; what is not here is in the test of the bench and the desk. */
const KINDS = {
  supplier_order: { table: supplierOrders, room: 'supplier-orders', route: 'POST /supplier-orders/:id/moves' },
  pickle_bath: { table: pickleBaths, room: 'pickle-baths', route: 'POST /pickle-baths/:id/moves' },
  hallmark_packet: { table: hallmarkPackets, room: 'hallmark-packets', route: 'POST /hallmark-packets/:id/moves' },
  private_link: { table: privateLinks, room: 'private-links', route: 'POST /private-links/:id/moves' },
  stocktake: { table: stocktakes, room: 'stocktakes', route: 'POST /stocktakes/:id/moves' },
} as const satisfies Partial<Record<Thing, { table: unknown; room: string; route: keyof typeof ACCESS }>>;

const OTHERS = [
  'commission',
  'quote_version',
  'piece',
  'plan_version',
  'heat',
  'joint',
  'incident',
  'lot',
  'payment',
  'bench_time',
];

test('every kind of thing is moved in one of the two tests', () => {
  expect([...Object.keys(KINDS), ...OTHERS].toSorted()).toEqual(THINGS.toSorted());
});

test.each(Object.entries(KINDS))(
  'over HTTP a %s is moved by every role, from every state to every state, as the machine form says',
  async (name, { table, room, route }) => {
    const app = await aSmallStudio();
    const [id] = app.ids[room]!;
    const path = `/${room}/${id}`;
    const put = (state: string) => {
      app.db.update(table).set({ state }).where(eq(table.id, id!)).run();
    };
    await holdToMachine(app, name, [{ thing: name as Thing, route, path, put, allowed: reading(path) }]);
  },
);

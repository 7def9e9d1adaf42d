import { pieces } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import type { TestApp } from './start-app.ts';

/** A piece as it stands in the book, in any state, for tests of what happens around it. */
export function putPiece(
  { db, clock }: TestApp,
  commission: { id: string; number: string },
  fields: Partial<typeof pieces.$inferInsert> = {},
): { id: string; number: string } {
  const serial = fields.serial ?? 1;
  return db
    .insert(pieces)
    .values({
      id: newId(clock.now()),
      number: `${commission.number}.${serial}`,
      commissionId: commission.id,
      serial,
      title: 'Pendant',
      metal: 'sterling-925',
      state: 'drawn',
      whereabouts: 'bench',
      createdAt: clock.now().toISOString(),
      ...fields,
    })
    .returning()
    .get();
}

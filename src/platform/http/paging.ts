import { z } from 'zod';

/** Ids are UUIDv7, so their order is the order of making: the last id of a page is the key of the next. */
export const PageQuery = z.strictObject({
  limit: z.coerce.number().int().min(1).max(200).default(50).describe('How many at most.'),
  cursor: z.uuid().optional().describe('nextCursor of the page before.'),
});

export interface Page {
  limit: number;
  cursor?: string | undefined;
}

export function pageReply<Item extends z.ZodType>(item: Item) {
  return z.object({ items: z.array(item), nextCursor: z.string().nullable() });
}

/**
 * Cuts one page out of rows that were read with a limit one greater than the page's.
 *
 * @param show what a row looks like to the caller
 */
export function pageOf<Row extends { id: string }, Item>(
  rows: Row[],
  { limit }: Page,
  show: (row: Row) => Item,
): { items: Item[]; nextCursor: string | null } {
  const shown = rows.slice(0, limit);
  return { items: shown.map(show), nextCursor: rows.length > limit ? shown.at(-1)!.id : null };
}

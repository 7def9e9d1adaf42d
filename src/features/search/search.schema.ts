import { z } from 'zod';

export const SEARCHED = ['client', 'commission', 'piece', 'solder_product', 'solder_lot', 'metal_product', 'supplier'] as const;

export const SearchQuery = z.strictObject({
  text: z
    .string()
    .trim()
    .min(3, 'Type three letters or more.')
    .max(100)
    .describe('Parts of words or numbers, each three letters or more, in any order; what has all of them is found.'),
  limit: z.coerce.number().int().min(1).max(50).default(20),
});

export const SearchReply = z.object({
  items: z.array(z.object({ kind: z.enum(SEARCHED), id: z.string(), label: z.string() })),
});

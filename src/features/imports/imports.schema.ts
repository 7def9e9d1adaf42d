import { z } from 'zod';

export const ImportQuery = z.strictObject({
  run: z
    .enum(['dry', 'real'])
    .default('dry')
    .describe('dry: only says what would happen. real: makes what every row says, or nothing at all if one is refused.'),
  decimal: z.enum(['point', 'comma']).default('point').describe('The decimal mark of its numbers; it is never guessed.'),
});

const CellErrorReply = z.object({
  column: z.string().describe('Empty: of the row as a whole.'),
  detail: z.string(),
  given: z.unknown().optional(),
  unit: z.string().optional(),
  perhaps: z.unknown().optional().describe('The value it may have been meant as.'),
  confirmable: z.boolean().optional().describe('It passes with a reason in the column confirm_reason.'),
});

const RowReply = z.object({
  row: z.number().int().describe('As a spreadsheet numbers it; the header is row 1.'),
  key: z.string(),
  outcome: z.enum(['made', 'already_there', 'refused']).describe('In a dry run: what would become of it.'),
  errors: z.array(CellErrorReply),
  confirmed: z.array(CellErrorReply).describe('What was odd, and passed by the reason that the row gives.'),
});

export const ImportReply = z.object({
  list: z.string(),
  run: z.enum(['dry', 'real']),
  delimiter: z.enum([',', ';']),
  decimal: z.enum(['point', 'comma']),
  made: z.number().int(),
  alreadyThere: z.number().int(),
  refused: z.number().int(),
  says: z.string(),
  rows: z.array(RowReply),
});

export const ImportListsReply = z.object({
  lists: z.array(
    z.object({
      list: z.string(),
      key: z.string().describe('How a row is told from others: what is there under it already is left as it is.'),
      columns: z.array(z.object({ header: z.string(), needed: z.boolean(), says: z.string() })),
    }),
  ),
});

import { z } from 'zod';

/** What every report begins with. */
export const head = {
  asOf: z.string(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  about: z.array(z.string()).describe('How its numbers came about, in sentences.'),
};

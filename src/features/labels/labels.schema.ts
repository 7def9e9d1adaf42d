import { z } from 'zod';

const LEAST = { widthMm: 25, heightMm: 12 };
const MOST = { widthMm: 150, heightMm: 100 };
const MOST_LABELS = 200;
const MM_PER_INCH = 25.4;

const side = (name: keyof typeof LEAST) =>
  z.coerce
    .number()
    .superRefine((given, context) => {
      if (given >= LEAST[name] && given <= MOST[name]) return;
      const converted = Number((given * MM_PER_INCH).toFixed(1));
      const fits = converted >= LEAST[name] && converted <= MOST[name];
      const says = [
        `A label is ${LEAST[name]} to ${MOST[name]} mm ${name === 'widthMm' ? 'wide' : 'high'}; this is ${given}.`,
        ...(fits ? [`${given} in are ${converted} mm, if that was meant.`] : []),
      ];
      context.addIssue({ code: 'custom', input: given, message: says.join(' ') });
    })
    .meta({ minimum: LEAST[name], maximum: MOST[name] })
    .optional();

export const LabelParams = z.strictObject({ id: z.uuid() });

export const LabelQuery = z
  .strictObject({
    format: z.enum(['html', 'pdf']).default('html'),
    layout: z
      .enum(['single', 'sheet'])
      .default('single')
      .describe(
        'single: each label a page of its own size, for a label printer. sheet: on the paper of the settings, 21 labels of 63.5 × 38.1 mm on A4 or 30 of 66.7 × 25.4 mm on Letter.',
      ),
    widthMm: side('widthMm').describe('Of a single label: 25 to 150.'),
    heightMm: side('heightMm').describe('Of a single label: 12 to 100.'),
    also: z
      .string()
      .max(100 * 37)
      .transform((ids) => ids.split(','))
      .pipe(z.array(z.uuid('Write ids with commas between them.')).max(100))
      .optional()
      .describe('Ids of more of the same kind, with commas between them: they follow on the same sheet.'),
    copies: z.coerce.number().int().min(1).max(MOST_LABELS).default(1).describe('Of each.'),
    startAt: z.coerce
      .number()
      .int()
      .min(1)
      .max(30)
      .default(1)
      .describe('Where the first label goes on a sheet that is used in part; 1 is at the top left.'),
  })
  .superRefine(({ layout, widthMm, heightMm, copies, also = [] }, context) => {
    const refuse = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message });
    if (layout === 'sheet') {
      for (const [name, given] of Object.entries({ widthMm, heightMm }))
        if (given !== undefined) refuse(name, 'The labels of a sheet have their own size: leave it out.');
    }
    const count = copies * (1 + also.length);
    if (count > MOST_LABELS) refuse('copies', `That makes ${count} labels; ask for ${MOST_LABELS} at most.`);
  });

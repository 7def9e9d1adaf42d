import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';

export const ClientParams = z.strictObject({ id: z.uuid() });

const line = (most: number) => withoutCardNumber(lineOfText(most));
const block = (most: number) => withoutCardNumber(blockOfText(most));

const clientFields = {
  name: withoutCardNumber(lineOfText(120, 'Give a name we can call the client by.')),
  email: z.email('Write an e-mail address, such as name@example.org.').max(254).nullable(),
  phone: z
    .string()
    .regex(/^\+[1-9]\d{7,14}$/, 'Write the phone number with + and country code, 8 to 15 digits.')
    .nullable(),
  language: z
    .string()
    .max(35)
    .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, 'Use a language tag, such as en, es or de.'),
  postAddress: block(400).nullable(),
  ringSizeMm: fenced('client', 'ringSizeMm', z.number()).nullable().describe('Inside circumference (ISO 8653).'),
  metalSensitivity: line(120).nullable(),
  photoAllowed: z.boolean(),
  notes: block(2000).nullable(),
};

const reachable = 'Give an e-mail address or a phone number: there must be one way to reach the client.';

export const NewClient = z
  .strictObject({
    ...clientFields,
    email: clientFields.email.default(null),
    phone: clientFields.phone.default(null),
    language: clientFields.language.optional(),
    postAddress: clientFields.postAddress.default(null),
    ringSizeMm: clientFields.ringSizeMm.default(null),
    metalSensitivity: clientFields.metalSensitivity.default(null),
    photoAllowed: clientFields.photoAllowed.default(false),
    notes: clientFields.notes.default(null),
  })
  .refine(({ email, phone }) => email !== null || phone !== null, { path: ['email'], message: reachable, when: bothKnown });

export const ClientChange = z.strictObject(clientFields).partial();

export const ClientReply = z.object({
  id: z.string(),
  ...clientFields,
  version: z.number().int(),
  createdAt: z.string(),
  forgottenAt: z.string().nullable(),
});

/** Told together with other bad fields, so long as these two can be read. */
function bothKnown({ issues }: { issues: { path?: PropertyKey[] | undefined }[] }): boolean {
  return !issues.some(({ path }) => path?.[0] === 'email' || path?.[0] === 'phone' || (path ?? []).length === 0);
}

/**
 * Thirteen to nineteen digits in a row that satisfy the Luhn check (ISO/IEC 7812-1) are taken for a card number. The digits of a UUID
 * (RFC 9562), as in the address of a page of the book, are not looked at.
 */
export function holdsNoCardNumber(text: string): boolean {
  const runs = text.replaceAll(/\b[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}\b/gi, '/').match(/\d(?:[ -]?\d){12,18}/g) ?? [];
  return !runs.some((run) => luhn(run.replaceAll(/\D/g, '')));
}

function luhn(digits: string): boolean {
  const sum = digits
    .split('')
    .reverse()
    .reduce((total, digit, index) => {
      const doubled = Number(digit) * (index % 2 === 1 ? 2 : 1);
      return total + (doubled > 9 ? doubled - 9 : doubled);
    }, 0);
  return sum % 10 === 0;
}

/** Text that is refused where it holds a payment-card number: neither stored nor shown again. */
export function withoutCardNumber(text: z.ZodString): z.ZodString {
  return text.refine(holdsNoCardNumber, {
    error: 'This looks like a payment-card number. It was not stored.',
    params: { secret: true },
  });
}

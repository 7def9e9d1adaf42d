import { z } from 'zod';
import { lineOfText } from '../../platform/http/text.ts';

/** Whoever watched over a shoulder tries these first. */
function isEasilyGuessed(pin: string): boolean {
  const digits = Array.from(pin, Number);
  const steps = new Set(digits.slice(1).map((digit, index) => digit - digits[index]!));
  return steps.size === 1 && [-1, 0, 1].includes([...steps][0]!);
}

const secret = { params: { secret: true } };

const pin = z
  .string()
  .refine((text) => /^\d{4,8}$/.test(text), { ...secret, message: 'A PIN has 4 to 8 digits.', abort: true })
  .refine((text) => !isEasilyGuessed(text), { ...secret, message: 'Not all alike, and not in a row such as 1234.' });

export const PersonIdParams = z.strictObject({ id: z.uuid() });

export const NewPin = z.strictObject({ pin });

export const PinReply = z.object({ personId: z.string(), createdAt: z.string() });

export const NewTablet = z.strictObject({ name: lineOfText(40, 'Give the tablet a name, such as "Anvil".') });

export const TabletReply = z.object({
  id: z.string(),
  name: z.string(),
  addedBy: z.string(),
  createdAt: z.string(),
  revokedAt: z.string().nullable(),
});

export const Unlock = z.strictObject({ personId: z.uuid(), pin: z.string().max(20) });

export const PinByCode = z.strictObject({
  personId: z.uuid().optional().describe('Whose; the code alone says it too.'),
  code: z.string().max(100).describe('Given by the owner; good once.'),
  pin,
});

export const OneTimeCodeReply = z.object({
  code: z.string().describe('Shown this once.'),
  expiresAt: z.string(),
});

export const OwnerReset = z.strictObject({
  code: z.string().max(100).describe('Printed by npm run reset-owner on the machine itself.'),
  password: z.string().min(12, 'A password needs 12 letters or more; a sentence is good.').max(200),
});

const person = z.object({ personId: z.string(), name: z.string() });

export const TabletNow = z.object({
  tablet: z.object({ id: z.string(), name: z.string() }).nullable().describe('Null: this device is not a shared tablet.'),
  people: z.array(person).describe('Who has a PIN, and may unlock it.'),
  unlockedBy: person.nullable().describe('Null: it is locked.'),
  locksAt: z.string().nullable().describe('Unless something is written before, or POST …/touches says somebody is there.'),
});

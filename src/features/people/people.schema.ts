import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';

export const RoleName = z.enum(['owner', 'bench', 'desk', 'student']);
const decimal = z.string().regex(/^\d{1,7}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "24.00".');
const personName = z.string().trim().min(1).max(120);
const signInName = z
  .string()
  .trim()
  .toLowerCase()
  .regex(/^[a-z0-9._-]{3,40}$/, 'A sign-in name has 3 to 40 of a–z, 0–9, dot, dash, underscore.');
const password = z.string().min(12, 'A password needs 12 letters or more; a sentence is good.').max(200);

const roles = z
  .array(RoleName)
  .min(1)
  .max(4)
  .refine((all) => new Set(all).size === all.length, 'Name each role once.');

export const PersonParams = z.strictObject({ id: z.uuid() });

const personFields = {
  name: personName,
  signInName: signInName.nullable().describe('Null: does not sign in.'),
  roles,
  tutor: z.boolean().describe("Says yes to a student's plan before the first flame."),
  ratePerHour: decimal
    .nullable()
    .describe('Money of the studio\'s currency for an hour, such as "24.00"; null: that of the role, from the settings.'),
  benchMinutesPerDay: fenced('person', 'benchMinutesPerDay', z.number().int())
    .nullable()
    .describe('Minutes of a day that reach the bench; usual is 330 of 480.'),
};

export const NewPerson = z.strictObject({
  ...personFields,
  signInName: personFields.signInName.default(null),
  password: password.optional(),
  tutor: personFields.tutor.default(false),
  ratePerHour: personFields.ratePerHour.default(null),
  benchMinutesPerDay: personFields.benchMinutesPerDay.default(null),
});

export const PersonChange = z
  .strictObject({
    ...personFields,
    password,
    active: z.boolean().describe('False: works here no more, and signs in no more.'),
  })
  .partial();

export const PersonReply = z.object({ id: z.string(), ...personFields, active: z.boolean(), version: z.number().int() });

export const FirstOwner = z.strictObject({
  code: z.string().max(100).describe('Printed by the server at its first start.'),
  name: personName,
  signInName,
  password,
});

export const SignIn = z.strictObject({ signInName: z.string().max(60), password: z.string().max(200) });

export const WhoReply = z.object({
  personId: z.string(),
  name: z.string(),
  roles: z.array(RoleName),
  tutor: z.boolean(),
});

export const NewToken = z.strictObject({
  name: z.string().trim().min(1).max(60),
  personId: z.uuid().optional().describe('For somebody else: the owner may. Oneself when absent.'),
  roles: roles
    .nullable()
    .default(null)
    .describe('What it is worth at most: no more than its person has; null: all of that. Then it makes no keys.'),
  onlyReads: z.boolean().default(false).describe('True: it looks and changes nothing.'),
});

export const TokenReply = z.object({
  id: z.string(),
  name: z.string(),
  personId: z.string(),
  createdAt: z.string(),
  revokedAt: z.string().nullable(),
  roles: z.array(RoleName).nullable(),
  onlyReads: z.boolean(),
});

export const SessionReply = z.object({
  id: z.string(),
  personId: z.string(),
  personName: z.string(),
  tablet: z.string().nullable().describe('The shared tablet it is at, by name.'),
  createdAt: z.string(),
  expiresAt: z.string(),
  isThisOne: z.boolean().describe('Whether it is the one that asks.'),
});

/** The secret is shown this once; the book keeps only its hash. */
export const NewTokenReply = TokenReply.extend({ token: z.string() });

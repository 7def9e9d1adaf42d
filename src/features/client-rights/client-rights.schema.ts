import { z } from 'zod';
import { PageQuery } from '../../platform/http/paging.ts';

export const ClientRightsParams = z.strictObject({ id: z.uuid() });

export const Forgetting = z.strictObject({
  name: z.string().max(120).describe('The client’s name as it is in the book, typed again: it cannot be taken back.'),
});

export const LookQuery = PageQuery.extend({
  clientId: z.uuid().optional().describe('Looks at all clients at once are among them.'),
});

export const LookReply = z.object({
  id: z.string(),
  clientId: z.string().nullable().describe('Null: at all clients at once, as in an export.'),
  clientName: z.string().nullable(),
  person: z.string(),
  way: z.string(),
  at: z.string().describe('The first time within that hour.'),
});

const day = z.string();

export const HeldReply = z.object({
  client: z.object({
    name: z.string(),
    email: z.string().nullable(),
    phone: z.string().nullable(),
    language: z.string(),
    postAddress: z.string().nullable(),
    ringSizeMm: z.number().nullable(),
    metalSensitivity: z.string().nullable(),
    photoAllowed: z.boolean(),
    notes: z.string().nullable(),
    createdAt: z.string(),
  }),
  commissions: z.array(
    z.object({
      number: z.string(),
      title: z.string(),
      wish: z.string().nullable(),
      state: z.string(),
      createdAt: z.string(),
      clientProperty: z.array(z.object({ what: z.string(), weightG: z.number(), declaredValueMinor: z.number().optional() })),
      quotes: z.array(z.object({ number: z.number(), state: z.string(), sentAt: z.string().nullable(), validUntil: day })),
      payments: z.array(
        z.object({
          kind: z.string(),
          amountMinor: z.number(),
          currency: z.string(),
          receivedOn: day.nullable(),
          reason: z.string().nullable(),
        }),
      ),
      letters: z.array(z.object({ kind: z.string(), how: z.string(), sentOn: day, note: z.string().nullable() })),
      messages: z.array(z.object({ words: z.string(), createdAt: z.string() })),
      links: z.array(
        z.object({ state: z.string(), createdAt: z.string(), visits: z.number(), lastVisitAt: z.string().nullable() }),
      ),
      photos: z.array(z.object({ caption: z.string().nullable(), takenAt: z.string(), showsPerson: z.boolean() })),
    }),
  ),
});

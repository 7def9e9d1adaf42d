import type { z } from 'zod';
import { clientsOldestFirst, findClientLike, NewClient, type ClientService } from '../clients/index.ts';
import { number, text, wordOf, yesNo, type ListKind } from './list-kind.ts';

export function clientList(clients: ClientService): ListKind {
  return {
    name: 'clients',
    key: 'the name with the e-mail address, or with the phone number where there is no address',
    schema: NewClient,
    columns: () => [
      text('name', '/name', 'Up to 120 letters.', true),
      text('email', '/email', 'Needed where there is no phone.'),
      text('phone', '/phone', 'With + and country code; needed where there is no e-mail address.'),
      text('language', '/language', 'A language tag, such as en or de; that of the studio where it says nothing.'),
      text('post_address', '/postAddress', 'Up to 400 letters.'),
      number('ring_size_mm', '/ringSizeMm', 'Inside circumference (ISO 8653).'),
      text('metal_sensitivity', '/metalSensitivity', 'With the client’s yes alone.'),
      yesNo('photo_allowed', '/photoAllowed', 'yes or no; no where it says nothing.'),
      text('notes', '/notes', 'Up to 2000 letters.'),
    ],
    keyOf: (body) => [wordOf(body, 'name'), wordOf(body, 'email') || wordOf(body, 'phone')].filter(Boolean).join(', '),
    isThere(db, body) {
      const [email, phone] = [wordOf(body, 'email'), wordOf(body, 'phone')];
      if (email === '' && phone === '') return false;
      const reachedBy = email === '' ? { phone } : { email };
      return findClientLike(db, { name: wordOf(body, 'name'), ...reachedBy }) !== undefined;
    },
    make: (actor, client: z.infer<typeof NewClient>) => void clients.add(actor, client),
    written: (db) =>
      clientsOldestFirst(db).map((row) => ({
        name: row.name,
        email: row.email,
        phone: row.phone,
        language: row.language,
        post_address: row.postAddress,
        ring_size_mm: row.ringSizeMm,
        metal_sensitivity: row.metalSensitivity,
        photo_allowed: row.photoAllowed,
        notes: row.notes,
      })),
  };
}

import type { Person } from './start-app.ts';

/** A client, noted by the desk or the owner. */
export async function aClient(person: Person, name = 'Millrace'): Promise<string> {
  const made = await person.post('/clients', { name, phone: '+4915112345678' }).expect(201);
  return made.body.id;
}

/** A commission; without a client named, one is made for it. */
export async function aCommission(
  person: Person,
  fields: Record<string, unknown> = {},
): Promise<{ id: string; number: string; version: number }> {
  const clientId = 'clientId' in fields ? fields['clientId'] : await aClient(person);
  const made = await person
    .post('/commissions', {
      title: 'Marsh Lantern pendant',
      kind: 'one_off',
      wish: 'A pendant for the evening',
      dueOn: '2031-06-20',
      placeOfSale: 'DE',
      ...fields,
      clientId,
    })
    .expect(201);
  return made.body;
}

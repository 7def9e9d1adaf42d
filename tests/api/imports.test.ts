import { expect, test } from 'vitest';
import { startApp, type Person } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const send = (person: Person, list: string, text: string | Buffer, query = '') =>
  person.post(`/imports/${list}${query}`).set('content-type', 'text/csv').send(text);
const rowsOf = async (person: Person, list: string, text: string, query = '') =>
  (await send(person, list, text, query).expect(200)).body.rows as {
    row: number;
    key: string;
    outcome: string;
    errors: { column: string; detail: string; given?: unknown; perhaps?: unknown; confirmable?: boolean }[];
    confirmed: { column: string }[];
  }[];

/** The journal without the tokens of the test itself, newest first. */
const written = async (owner: Person) =>
  (await owner.get('/journal')).body.items.filter(({ what }: { what: string }) => what !== 'token') as Record<string, unknown>[];

const PRODUCTS = `code;name;grade_word;solidus_c;liquidus_c;silver_fraction;cadmium;lead_or_tin;form;density_g_per_cm3;smallest_piece_g;safety_sheet;supplier;pack_g;price_EUR_per_g;lead_weeks
hard;Hard wire;hard;740;775;0.75;no;no;wire;9.97;0.0013;folder 12;Harbour Metals;5;1.85;2
easy;"Easy sheet; ""soft""";easy;671;718;0.6;no;no;sheet;9.6;0.002;folder 13;Harbour Metals;5;1.70;2
`;

test('a dry run says row by row what would happen and writes nothing; a real run does it, and once', async () => {
  const { owner } = await startApp();
  const dry = (await send(owner, 'solder-products', PRODUCTS).expect(200)).body;
  expect(dry).toMatchObject({
    list: 'solder-products',
    run: 'dry',
    delimiter: ';',
    made: 2,
    alreadyThere: 0,
    refused: 0,
    says: '2 would be made, 0 already there and left as they are.',
    rows: [
      { row: 2, key: 'hard', outcome: 'made', errors: [] },
      { row: 3, key: 'easy', outcome: 'made', errors: [] },
    ],
  });
  expect((await owner.get('/solder-products')).body.items).toEqual([]);
  expect(await written(owner)).toEqual([]);
  const real = (await send(owner, 'solder-products', PRODUCTS, '?run=real').expect(201)).body;
  expect(real).toMatchObject({ run: 'real', made: 2, says: '2 made, 0 already there and left as they are.' });
  const { items } = (await owner.get('/solder-products')).body;
  expect(items).toMatchObject([
    { code: 'easy', name: 'Easy sheet; "soft"', price: { amount: '1.7', per: 'g' }, metalFraction: 1, active: true },
    { code: 'hard', solidusC: 740, silverFraction: 0.75 },
  ]);
  expect(await written(owner)).toMatchObject([
    { what: 'import', after: { list: 'solder-products', made: ['hard', 'easy'] } },
    { what: 'solder-product' },
    { what: 'solder-product' },
  ]);
  const again = (await send(owner, 'solder-products', PRODUCTS, '?run=real').expect(201)).body;
  expect(again).toMatchObject({ made: 0, alreadyThere: 2, rows: [{ outcome: 'already_there' }, { outcome: 'already_there' }] });
  const { version } = (await owner.get(`/solder-products/${items[0].id}`)).body;
  expect(version).toBe(1);
});

test('a real run with one bad row makes nothing, and tells every fault of every row with the value it may have been', async () => {
  const { owner } = await startApp();
  const text = PRODUCTS.replace('0.75', '75')
    .replace('easy;671;718', 'easy;718;671')
    .replace('9.6;', 'heavy;')
    .concat('hard;Hard again;hard;740;775;0.75;no;no;wire;9.97;0.0013;folder 12;Harbour Metals;5;1.85;2\n');
  const rows = await rowsOf(owner, 'solder-products', text);
  expect(rows).toMatchObject([
    { row: 2, outcome: 'refused', errors: [{ column: 'silver_fraction', given: 75, perhaps: 0.75 }] },
    { row: 3, outcome: 'refused' },
    // The first of that name would not be made, so this one is.
    { row: 4, key: 'hard', outcome: 'made' },
  ]);
  const refused = await send(owner, 'solder-products', text, '?run=real').expect(422);
  expect(refused.body.errors).toMatchObject([
    { pointer: '/2/silver_fraction', given: 75, perhaps: 0.75 },
    { pointer: '/3/density_g_per_cm3', detail: 'Write a number.', given: 'heavy' },
  ]);
  expect((await owner.get('/solder-products')).body.items).toEqual([]);
  expect(await written(owner)).toEqual([]);
  const swapped = await rowsOf(owner, 'solder-products', PRODUCTS.replace('easy;671;718', 'easy;718;671'));
  expect(swapped[1]).toMatchObject({
    errors: [{ column: 'liquidus_c', detail: 'Flow point 671 is below melting start 718: swapped?' }],
  });
});

test.each([
  [
    '1,85',
    'point',
    '1,85 has a decimal comma; this file is read with a decimal point. Send ?decimal=comma for the whole file, or write 1.85.',
    1.85,
  ],
  [
    '1.85',
    'comma',
    '1.85 has a decimal point; this file is read with a decimal comma. Send ?decimal=point for the whole file, or write 1,85.',
    1.85,
  ],
  [
    '1,234',
    'point',
    '1,234 has a decimal comma; this file is read with a decimal point. Send ?decimal=comma for the whole file, or write what is meant: 1.234 or 1234.',
    undefined,
  ],
  ['1.234,50', 'comma', 'Write it without marks between thousands, and with one decimal mark.', undefined],
  ['20 g', 'point', 'Write the number alone: 20; the header says its unit.', undefined],
] as const)('%s under a decimal %s is told, not guessed', async (cell, decimal, detail, perhaps) => {
  const { desk } = await startApp();
  const [row] = await rowsOf(
    desk,
    'suppliers',
    `name;lead_working_days;minimum_EUR\nHarbour Metals;8;${cell}\n`,
    `?decimal=${decimal}`,
  );
  expect(row).toMatchObject({ outcome: 'refused', errors: [{ column: 'minimum_EUR', detail, given: cell }] });
  expect(row!.errors[0]!.perhaps).toBe(perhaps);
});

test('commas and semicolons, BOM or none, either decimal mark and any line end are read alike', async () => {
  const { desk } = await startApp();
  const semicolons =
    '﻿Name;LEAD_WORKING_DAYS;minimum_eur;note\r\nHarbour Metals;8;150,00;"two\r\nlines"\r\n\r\n;;;\r\nMillrace;5;;\r\n';
  const commas = 'name,lead_working_days,minimum_EUR,note\nHarbour Metals,8,150.00,"two\nlines"\nMillrace,5,,';
  const first = await send(desk, 'suppliers', semicolons, '?run=real&decimal=comma').expect(201);
  expect(first.body).toMatchObject({
    delimiter: ';',
    decimal: 'comma',
    made: 2,
    rows: [{ row: 2 }, { row: 5, key: 'Millrace' }],
  });
  expect((await desk.get('/suppliers')).body.items).toMatchObject([
    { name: 'Millrace', minimum: { amountMinor: 0 } },
    { name: 'Harbour Metals', minimum: { amountMinor: 15000, currency: 'EUR' }, note: 'two\nlines' },
  ]);
  expect((await send(desk, 'suppliers', commas).expect(200)).body).toMatchObject({ delimiter: ',', alreadyThere: 2 });
});

test('a table that cannot be read is refused as a whole, with what is wrong', async () => {
  const { desk } = await startApp();
  const refused = async (text: string | Buffer, status = 422) => (await send(desk, 'clients', text).expect(status)).body;
  expect((await refused('name;phone;Birthday;name\nMillrace;+4915112345678;x;y\n')).errors).toMatchObject([
    { pointer: '/1/Birthday', detail: 'There is no column "Birthday" here.' },
    { pointer: '/1/name', detail: 'The column "name" is there twice.' },
  ]);
  const dollars = 'name;lead_working_days;minimum_USD\nMillrace;8;5\n';
  expect((await send(desk, 'suppliers', dollars).expect(422)).body.errors).toMatchObject([
    { pointer: '/1/minimum_USD', detail: 'There is no column "minimum_USD" here. Was "minimum_EUR" meant?' },
  ]);
  expect((await refused('phone\n+4915112345678\n')).errors).toMatchObject([{ pointer: '/1/name' }]);
  expect((await refused('name,phone\n"Millrace,+49')).detail).toContain('in row 2: a quoted field is not closed');
  expect((await refused(Buffer.from('name,phone\nM\xe4nner,+4915112345678', 'latin1'))).detail).toContain('not UTF-8');
  expect((await refused(`name,phone\n${'Millrace,+4915112345678\n'.repeat(501)}`)).detail).toContain('501 rows; send 500');
  expect((await refused('')).detail).toContain('There is nothing in it');
  await refused('x'.repeat(1024 * 1024 + 1), 413);
  await desk.post('/imports/clients', { name: 'Millrace' }).expect(415);
  const [short] = await rowsOf(desk, 'clients', 'name,phone\nMillrace\n');
  expect(short).toMatchObject({
    outcome: 'refused',
    errors: [{ column: '', detail: expect.stringContaining('1 fields, the header 2') }],
  });
});

test('faults of one row are told all at once, and a card number is neither stored nor shown again', async () => {
  const { desk } = await startApp();
  const card = '4111 1111 1111 1111';
  const reply = await send(desk, 'clients', `name,phone,ring_size_mm,photo_allowed,notes\n,0151,17,maybe,card ${card}\n`).expect(
    200,
  );
  expect(reply.body.rows[0].errors.map(({ column }: { column: string }) => column).toSorted()).toEqual([
    'name',
    'notes',
    'phone',
    'photo_allowed',
    'ring_size_mm',
  ]);
  expect(reply.text).not.toContain(card);
});

test('what looks odd is asked about, and passes by the reason of its row, which the journal keeps', async () => {
  const { owner } = await startApp();
  await addProduct(owner, { code: 'hard' });
  const head = 'lot,product,received_on,quantity_g,unit_cost_EUR_per_g,mark,confirm_reason\n';
  const odd = await rowsOf(owner, 'solder-lots', `${head}L7,hard,2031-05-01,0.3,1.85,H,\n`);
  expect(odd[0]).toMatchObject({ outcome: 'refused', errors: [{ column: 'quantity_g', confirmable: true }], confirmed: [] });
  const text = `${head}L7,hard,2031-05-01,0.3,1.85,H,the end of a coil\n`;
  expect((await rowsOf(owner, 'solder-lots', text))[0]).toMatchObject({ outcome: 'made', confirmed: [{ column: 'quantity_g' }] });
  await send(owner, 'solder-lots', text, '?run=real').expect(201);
  const line = (await written(owner)).find(({ what }) => what === 'solder-lot');
  expect(line).toMatchObject({ confirmed: { pointers: ['/quantityG'], reason: 'the end of a coil' } });
  // Of two faults of one field, only what is asked about passes.
  const swapped = PRODUCTS.split('\n')
    .slice(0, 2)
    .map((line, index) => `${line.replace('740;775', '900;840')};${index === 0 ? 'confirm_reason' : 'a trial alloy'}`)
    .join('\n');
  expect((await rowsOf(owner, 'solder-products', swapped.replaceAll('hard;H', 'trial;H')))[0]).toMatchObject({
    outcome: 'refused',
    errors: [{ column: 'liquidus_c', detail: 'Flow point 840 is below melting start 900: swapped?' }],
  });
  // Forbidden stays forbidden.
  const worse = await rowsOf(owner, 'solder-lots', `${head}L8,hard,2031-05-01,0.001,1.85,H,truly\n`);
  expect(worse[0]).toMatchObject({ outcome: 'refused', errors: [{ column: 'quantity_g' }] });
});

test('lots keep the number that is written on them, new ones count on after it, and doubt stays doubt', async () => {
  const { owner, desk } = await startApp();
  const { id: productId } = await addProduct(owner, { code: 'hard', cadmiumStanding: 'unknown' });
  const text = `lot,product,received_on,quantity_g,unit_cost_EUR_per_g,mark,cadmium,held_back_because,document_kind,document_reference,document_dated_on
L7,hard,2031-05-01,20,1.85,H,no,,supplier_sheet,folder 12,2031-01-01
old coil,hard,2030-05-01,5,1.85,K,,,,,
L8,hard,2031-05-01,20,1.85,,no,grade in doubt,supplier_sheet,folder 12,2031-01-01
L9,hard,2031-05-01,20,1.85,H,no,,,,
L10,nobody,2031-13-01,20,1.85,H,no,,,,
`;
  expect(await rowsOf(desk, 'solder-lots', text)).toMatchObject([
    { outcome: 'made' },
    { outcome: 'made' },
    { outcome: 'made' },
    { outcome: 'refused', errors: [{ column: 'document_reference' }] },
    { outcome: 'refused', errors: [{ column: 'product' }, { column: 'received_on' }] },
  ]);
  await send(desk, 'solder-lots', text.split('\n').slice(0, 4).join('\n'), '?run=real').expect(201);
  const { items } = (await owner.get('/solder-lots')).body;
  expect(items).toMatchObject([
    { number: 'L8', state: 'held_back', stateReason: 'grade in doubt', onHandG: 20 },
    { number: 'old coil', state: 'held_back', stateReason: 'cadmium unknown', onHandG: 5 },
    { number: 'L7', state: 'sealed', cadmiumDocument: { reference: 'folder 12' }, unitCost: { amount: '1.85', per: 'g' } },
  ]);
  expect(await receiveLot(owner, productId)).toMatchObject({ number: 'L9' });
  expect((await owner.post('/stock/audit').expect(200)).body).toMatchObject({ ok: true, lots: 4, findings: [] });
});

test('a table sent twice under one key is taken once', async () => {
  const { desk } = await startApp();
  const once = () =>
    send(desk, 'suppliers', 'name,lead_working_days\nHarbour Metals,8\n', '?run=real')
      .set('idempotency-key', 'table-0001')
      .expect(201);
  const first = (await once()).body;
  expect(first).toMatchObject({ made: 1 });
  expect((await once()).body).toEqual(first);
  await send(desk, 'suppliers', 'name,lead_working_days\nMillrace,8\n', '?run=real')
    .set('idempotency-key', 'table-0001')
    .expect(422);
});

test('each list is for who may make one of it by hand; the exports are the owner’s', async () => {
  const { desk, bench, student } = await startApp();
  await send(desk, 'solder-products', PRODUCTS).expect(403);
  for (const list of ['suppliers', 'clients', 'solder-products', 'solder-lots']) {
    for (const person of [bench, student]) await send(person, list, 'name\n').expect(403);
    await desk.get(`/exports/${list}`).expect(403);
  }
});

test('metal is brought in by the name of its product, with its price as it was typed', async () => {
  const { owner, desk } = await startApp();
  const head = 'name,metal,form,thickness_mm,diameter_mm,supplier,price_EUR,price_per\n';
  const rows = await rowsOf(
    owner,
    'metal-products',
    `${head}Sheet 0.8,sterling-925,sheet,0.8,,Harbour Metals,46.00,ozt\nSheet 18,sterling-925,sheet,,1.2,Harbour Metals,46.00,ozt\nOdd,pewter,wire,,1,Harbour Metals,46.00,kg\n`,
  );
  expect(rows[0]).toMatchObject({ key: 'Sheet 0.8', outcome: 'made' });
  expect(rows[1]!.errors.map(({ column }) => column).toSorted()).toEqual(['diameter_mm', 'thickness_mm']);
  expect(rows[2]!.errors.map(({ column }) => column)).toEqual(expect.arrayContaining(['form', 'price_per']));
  await send(owner, 'metal-products', `${head}Sheet 0.8,sterling-925,sheet,0.8,,Harbour Metals,46.00,ozt\n`, '?run=real').expect(
    201,
  );
  expect((await owner.get('/metal-products')).body.items).toMatchObject([
    { name: 'Sheet 0.8', form: { kind: 'sheet', thicknessMm: 0.8 }, price: { amount: '46.00', per: 'ozt' } },
  ]);
  const lots = 'lot,product,received_on,quantity_g,unit_cost_EUR_per_g\nM4,Sheet 0.8,2031-05-01,120,1.48\n';
  await send(desk, 'metal-lots', lots, '?run=real').expect(201);
  expect((await send(desk, 'metal-lots', lots, '?run=real').expect(201)).body).toMatchObject({ made: 0, alreadyThere: 1 });
  const { items } = (await desk.get('/metal-lots')).body;
  expect(items).toMatchObject([{ number: 'M4', onHandG: 120, owner: 'ours', unitCost: { amount: '1.48', per: 'g' } }]);
  const next = { productId: items[0].productId, receivedOn: '2031-05-05', quantityG: 10 };
  expect((await desk.post('/metal-lots', next).expect(201)).body).toMatchObject({ number: 'M5' });
  const unknown = await rowsOf(desk, 'metal-lots', lots.replace('M4,Sheet 0.8', 'M9,Sheet 9'));
  expect(unknown[0]).toMatchObject({ outcome: 'refused', errors: [{ column: 'product', given: 'Sheet 9' }] });
});

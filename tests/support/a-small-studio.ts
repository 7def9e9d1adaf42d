import { sql } from 'drizzle-orm';
import { ReportName } from '../../src/features/reports/reports.schema.ts';
import { aMetal } from './a-metal.ts';
import { aClient } from './a-commission.ts';
import { aSketch, anAcceptedQuote, typePrices } from './a-quote.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, workHeat } from './at-the-bench.ts';
import { HEATS } from './observed-heats.ts';
import { pendant, pendantPlan } from './pendant.ts';
import { aPhoneJpeg, sendPhoto } from './pictures.ts';
import { aStockedDrawer } from './stocked.ts';
import { noneUnderWay } from './plan-searches.ts';
import { startApp, type TestApp } from './start-app.ts';
import { receiveLot } from './stock.ts';

export interface SmallStudio extends TestApp {
  /** Ids of what is in the book, by the first part of its path. */
  ids: Record<string, string[]>;
  /** What means something here, by the name of the field that takes it. */
  values: Record<string, unknown[]>;
  ownerToken: string;
  /** Lots by the code of their solder. */
  lots: Record<string, string>;
  signIn: { signInName: string; password: string };
}

/** One of everything, made over HTTP: a client, pieces with designs and plans, heats, stock, a quote, money, time, an incident. */
export async function aSmallStudio(
  given: Pick<NonNullable<Parameters<typeof startApp>[0]>, 'file' | 'whenDone'> = {},
): Promise<SmallStudio> {
  const app = await startApp(given);
  const { owner, bench, clock } = app;
  await typePrices(app);
  const clientId = await aClient(owner);
  const { lots, products } = await aDrawer(app);
  const drawn = await aDrawnPiece(app, { clientId, quantity: 20 });
  await bench.post(`/pieces/${drawn.id}/plans`, { plan: pendantPlan }).expect(201);
  const spare = await aDrawnPiece(app, { clientId });
  const draft = (await bench.post(`/pieces/${spare.id}/plans`, { plan: pendantPlan }).expect(201)).body.id as string;
  const worked = await aDrawnPiece(app, { clientId });
  const { plan, heats } = await planInUse(bench, worked.id);
  await issueMetal(bench, worked.id);
  await workHeat(bench, heats[0]!.id, lots);
  const accepted = await anAcceptedQuote(app, drawn.commissionId);
  const sketch = await aSketch(app, drawn.commissionId);
  const made = async (path: string, body: object) => (await owner.post(path, body).expect(201)).body.id as string;
  const deposit = { kind: 'deposit', how: 'cash', amount: { amountMinor: 5000, currency: 'EUR' } };
  const payments = [
    await made('/payments', { commissionId: drawn.commissionId, ...deposit }),
    await made('/payments', { commissionId: drawn.commissionId, ...deposit, dueOn: '2031-06-20' }),
  ];
  const time = await made('/bench-times', { pieceId: worked.id, operation: 'sawing', minutesByHand: 30 });
  const running = await made('/bench-times', { general: true, operation: 'sweeping' });
  const incident = await made('/incidents', { pieceId: spare.id, kind: 'pit' });
  // Of a lot that nobody weighs: what was booked before that is not taken back.
  const { id: leftAlone } = await receiveLot(owner, products['hard']!, { quantityG: 5 });
  const movement = await made('/stock-movements', { kind: 'scrap', lotId: leftAlone, quantityG: 0.5, reason: 'sweepings' });
  await typePrices(app, { privateLinks: { on: true } });
  const link = await made('/private-links', { commissionId: drawn.commissionId });
  const signIn = { signInName: 'shale', password: 'a sentence is good' };
  const person = await made('/people', { name: 'Shale', roles: ['bench'], ...signIn });
  const token = await made('/tokens', { name: 'spare', personId: person });
  const torches = [
    await made('/torches', { name: 'Pencil', torch: 'small' }),
    await made('/torches', { name: 'Brazer', torch: 'large' }),
  ];
  const metals = [await made('/metals', aMetal()), await made('/metals', aMetal({ id: 'our-935' }))];
  const calibration = await made('/calibrations', { torchId: torches[1], observations: [{ ...HEATS.disc, secondsToFlow: 8 }] });
  const packets: string[] = [];
  for (const { id } of [drawn, spare, worked]) packets.push(await made('/hallmark-packets', aPacket(id)));
  await owner.put('/place-rules/DE', { source: 'the office', leastSolderFinenessFraction: 0.65 }).expect(200);
  const stocked = await aStockedDrawer(owner, Object.values(products)[0]!);
  const searches = [
    (await owner.post('/plan-searches', { pieceId: spare.id }).expect(202)).body.id as string,
    (await owner.post('/plan-searches', { design: pendant }).expect(202)).body.id as string,
  ];
  await noneUnderWay(app);
  const tablet = await made('/shared-tablets', { name: 'Anvil' });
  const jpeg = await aPhoneJpeg();
  for (const id of Object.values(products))
    await owner.post(`/solder-products/${id}/safety-sheet`).attach('file', jpeg, { filename: 'sheet.jpg' }).expect(201);
  const photos: string[] = [];
  for (const pieceId of [worked.id, drawn.id])
    photos.push((await sendPhoto(owner, jpeg, { pieceId }).expect(201)).body.id as string);
  clock.advance({ minutes: 20 });
  const ids: Record<string, string[]> = {
    people: [person],
    pins: [person],
    'shared-tablets': [tablet],
    tokens: [token],
    clients: [clientId],
    commissions: [drawn.commissionId, worked.commissionId],
    pieces: [drawn.id, worked.id],
    plans: [draft, plan.id],
    // The next one to work first.
    heats: [1, 0, 2, 3].map((index) => heats[index]!.id),
    quotes: [sketch.id, accepted.id],
    documents: [accepted.id, drawn.commissionId, worked.id, packets[0]!, stocked['stocktakes']![0]!, plan.id],
    labels: [Object.values(lots)[0]!, stocked['pickle-baths']![0]!, drawn.id],
    'private-links': [link],
    payments,
    incidents: [incident],
    photos,
    'bench-times': [time, running],
    benches: [await made('/benches', { name: 'Heron' })],
    absences: [await made('/absences', { firstOn: '2031-05-06', lastOn: '2031-05-06', reason: 'assay day' })],
    'solder-products': Object.values(products),
    'solder-lots': Object.values(lots),
    'stock-movements': [movement],
    ...stocked,
    torches,
    metals,
    calibrations: [calibration],
    'plan-searches': searches,
    'place-rules': ['DE'],
    'hallmark-packets': packets,
    problems: ['not-found'],
    reports: [...ReportName.options],
  };
  const joints = pendant.joints.map(({ id }) => id);
  const parts = pendant.parts.map(({ id }) => id);
  const at = clock.now().toISOString();
  return {
    ...app,
    ids,
    lots,
    signIn,
    ownerToken: app.services.keys.addToken(app.actors.owner, { name: 'raw' }).token,
    values: {
      clientId: [clientId],
      commissionId: ids['commissions']!,
      with: ids['quotes']!,
      pieceId: ids['pieces']!,
      planId: ids['plans']!,
      heatId: ids['heats']!,
      incidentId: [incident],
      also: [ids['solder-lots']!.join(','), ids['pickle-baths']!.join(','), ids['pieces']!.join(',')],
      startAt: [1, 5],
      lotId: ids['solder-lots']!,
      productId: ids['solder-products']!,
      personId: [person],
      torchId: torches,
      jointId: joints,
      joint: joints,
      joints,
      part: parts,
      closes: parts,
      guards: [...parts, ...joints],
      before: joints,
      sameHeat: joints,
      metal: ['sterling-925', 'fine-silver-999', 'copper', ...metals],
      solder: ['hard', 'medium', 'easy'],
      metals: ['sterling-925'],
      id: [...parts, ...joints, 'hard', 'easy'],
      names: ['bench', 'desk', 'sterling-925', ...joints, '/parts/0/form/lengthMm'],
      from: [
        'sketch',
        'sent',
        'asked',
        'shaping',
        'drawn',
        'draft',
        'checked',
        'laid_out',
        'seen',
        'running',
        'stopped',
        'open',
        'sealed',
      ],
      occurredAt: [at],
      deviceId: ['tablet-1'],
      currency: ['EUR', 'EUR', 'JPY', 'KWD', 'XAU', 'xyz'],
      timeZone: ['Europe/Berlin', 'Pacific/Apia', 'UTC', 'Mars/Base'],
      language: ['en', 'de', 'x-y-z', 'zh-Hant-TW'],
      timeMs: [10, 30],
      workUnits: [1000, 2000],
    },
  };
}

export function aPacket(pieceId: string) {
  const amount = { amountMinor: 1200, currency: 'EUR' };
  const pieces = [{ pieceId, weighedG: 6.1, parts: 'plate and bail' }];
  return { place: 'DE', office: 'Harbour office', fee: amount, post: amount, pieces };
}

/** What is in every table, counted, and where the journal ends: it changes whenever a line is written. */
export function bookOf({ db }: TestApp): () => string {
  const tables = db.all<{ name: string }>(sql`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`);
  const counts = tables.map(({ name }) => `(SELECT count(*) FROM "${name}")`).join(` || ' ' || `);
  const query = sql.raw(`SELECT ${counts} || ' ' || (SELECT max(seq) FROM journal) AS book`);
  return () => db.get<{ book: string }>(query).book;
}

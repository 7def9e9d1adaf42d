import { eq } from 'drizzle-orm';
import { insertPerson, insertSession } from '../../src/features/people/people.store.ts';
import { hashSecret, newSecret } from '../../src/features/people/passwords.ts';
import { putPin } from '../../src/features/people/tablets.store.ts';
import type { Role } from '../../src/platform/db/json-columns.ts';
import { calibrations, planSearches } from '../../src/platform/db/tables.ts';
import { effectiveRoles } from '../../src/platform/http/actor.ts';
import { newId } from '../../src/platform/ids.ts';
import { aSmallStudio, type SmallStudio } from './a-small-studio.ts';
import { aDrawnPiece, issueMetal, planInUse, workHeat } from './at-the-bench.ts';
import { pendantPlan } from './pendant.ts';
import { aPhoneJpeg, sendPhoto } from './pictures.ts';
import type { Person } from './start-app.ts';

export const ROLES = ['owner', 'bench', 'desk', 'student'] as const;

/** Somebody who works or learns here, with a key to all that they may do. */
export interface Hand {
  name: string;
  role: Role;
  personId: string;
  token: string;
  /** Their own things: ids by the first part of the path. */
  own: Readonly<Record<string, string>>;
}

export interface TwoOfEach extends SmallStudio {
  /** Two of every role. */
  hands: Hand[];
  /** Ids of a piece for practice and of all that hangs on it, as `ids` has those of the studio's other pieces. */
  practice: Readonly<Record<string, readonly string[]>>;
  /** The same of a piece that is for nobody's practice. */
  other: Readonly<Record<string, readonly string[]>>;
}

/** A small studio with two people of each role, each with things of their own, and with a piece for practice beside its others. */
export async function twoOfEach(given: Parameters<typeof aSmallStudio>[0] = {}): Promise<TwoOfEach> {
  const studio = await aSmallStudio(given);
  const { bench, db, ids, clock } = studio;
  const practice = await practiceWork(studio);
  const [spare] = (await bench.get(`/incidents/${ids['incidents']![0]}`).expect(200)).body.pieceId.split();
  const other = {
    commissions: ids['commissions']!,
    pieces: [...ids['pieces']!, spare],
    plans: ids['plans']!,
    heats: ids['heats']!,
    incidents: ids['incidents']!,
    photos: ids['photos']!,
    'plan-searches': [ids['plan-searches']![0]!],
  };
  const jpeg = await aPhoneJpeg();
  const hands: Hand[] = [];
  for (const role of ROLES) {
    const [first, second] = [studio.actors[role].personId, newId(clock.now())];
    const { tutor } = studio.actors[role];
    insertPerson(db, { id: second, name: `Another ${role}`, roles: [role], tutor, createdAt: clock.now().toISOString() });
    for (const [name, personId] of [
      [role, first],
      [`another ${role}`, second],
    ] as const)
      hands.push(await aHand(studio, { name, role, personId }, { pieceId: practice['pieces']![0]!, jpeg }));
  }
  return { ...studio, hands, practice, other };
}

/** A pendant to practise on, cut, with a plan in use and one drafted, as the studio's others have them. */
async function practiceWork(studio: SmallStudio): Promise<Record<string, string[]>> {
  const { bench, owner, lots, db, ids, clock } = studio;
  const kind = { kind: 'teaching_piece', quantity: 3 };
  const drawn = await aDrawnPiece(studio, kind);
  const spare = await aDrawnPiece(studio, kind);
  const worked = await aDrawnPiece(studio, kind);
  const draft = (await bench.post(`/pieces/${spare.id}/plans`, { plan: pendantPlan }).expect(201)).body.id as string;
  const { plan, heats } = await planInUse(bench, worked.id);
  await issueMetal(bench, worked.id);
  await workHeat(bench, heats[0]!.id, lots);
  const incident = (await owner.post('/incidents', { pieceId: spare.id, kind: 'pit' }).expect(201)).body.id as string;
  const photo = (await sendPhoto(owner, await aPhoneJpeg(), { pieceId: worked.id }).expect(201)).body.id as string;
  const search = newId(clock.now());
  const like = db.select().from(planSearches).where(eq(planSearches.id, ids['plan-searches']![0]!)).get()!;
  db.insert(planSearches)
    .values({ ...like, id: search, pieceId: spare.id })
    .run();
  return {
    commissions: [drawn.commissionId, worked.commissionId],
    pieces: [drawn.id, worked.id, spare.id],
    plans: [draft, plan.id],
    heats: [1, 0, 2, 3].map((index) => heats[index]!.id),
    incidents: [incident],
    photos: [photo],
    'plan-searches': [search],
  };
}

/** Somebody with one of each of what is their own, made by them where that is quick. */
async function aHand(
  studio: SmallStudio,
  { name, role, personId }: Pick<Hand, 'name' | 'role' | 'personId'>,
  { pieceId, jpeg }: { pieceId: string; jpeg: Buffer },
): Promise<Hand> {
  const { services, db, clock, ids } = studio;
  const at = clock.now();
  const createdAt = at.toISOString();
  const actor = { ...studio.actors[role], personId, roles: effectiveRoles([role]) };
  const { token } = services.keys.addToken(actor, { name });
  const session = newId(at);
  insertSession(db, {
    id: session,
    personId,
    tokenHash: hashSecret(newSecret()),
    createdAt,
    expiresAt: '2031-06-01T00:00:00Z',
  });
  if (role !== 'desk') putPin(db, { personId, pinHash: 'none', createdAt });
  const [calibration, search] = [newId(at), newId(at)];
  const [fitted] = db.select().from(calibrations).limit(1).all();
  if (role !== 'desk') {
    db.insert(calibrations)
      .values({ ...fitted!, id: calibration, personId, version: 2 })
      .run();
    const like = db.select().from(planSearches).where(eq(planSearches.id, ids['plan-searches']![1]!)).get()!;
    db.insert(planSearches)
      .values({ ...like, id: search, personId })
      .run();
  }
  // Longer than is written without being asked about.
  const time = services.benchTimes.add(actor, { general: true, operation: 'sweeping', minutesByHand: 300, note: name });
  const spare = services.keys.addToken(actor, { name: 'spare' });
  const as = { post: (path: string) => studio.stranger.post(path).set('authorization', `Bearer ${token}`) } as unknown as Person;
  const photo = (await sendPhoto(as, jpeg, { pieceId }).expect(201)).body.id as string;
  const incident = await as.post('/incidents').send({ pieceId, kind: 'pit' }).expect(201);
  return {
    name,
    role,
    personId,
    token,
    own: {
      tokens: spare.id,
      sessions: session,
      'bench-times': time.id,
      photos: photo,
      incidents: incident.body.id as string,
      ...(role === 'desk' ? {} : { pins: personId, calibrations: calibration, 'plan-searches': search }),
    },
  };
}

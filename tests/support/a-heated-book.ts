import type { EarlierJoint } from '../../shared/sequencing/plan-check-answer.ts';
import { designs, heats, incidents, journal, plans } from '../../src/platform/db/tables.ts';
import { newId } from '../../src/platform/ids.ts';
import type { TestApp } from './start-app.ts';

/** What was predicted of a joint that was made before. */
export function predicted(joint: string, solidMarginK: number, of: Partial<EarlierJoint> = {}): EarlierJoint {
  return {
    joint,
    peakC: 700,
    uncertaintyK: 15,
    solidMarginK,
    runMarginK: solidMarginK + 50,
    secondsAboveSolidus: 0,
    secondsAboveLiquidus: 0,
    verdict: solidMarginK < 0 ? 'softens' : 'stays_solid',
    severity: 'none',
    says: '',
    ...of,
  };
}

/** A heat that is over, in the book and in its journal, of a plan that predicted so much of earlier joints. */
export function putEndedHeat(
  { db, clock, actors }: TestApp,
  {
    pieceId,
    earlierJoints,
    outcome = 'flowed',
    riseK = 0,
    antiFlowOn = [],
    litBy = actors.bench.personId,
  }: {
    pieceId: string;
    earlierJoints: EarlierJoint[];
    outcome?: string;
    riseK?: number;
    antiFlowOn?: string[];
    litBy?: string;
  },
): string {
  const at = clock.now().toISOString();
  const [id, designId, planId] = [newId(clock.now()), newId(clock.now()), newId(clock.now())];
  const made = { pieceId, number: (planNumber += 1), madeBy: actors.bench.personId, createdAt: at };
  db.insert(designs)
    .values({ ...made, id: designId, body: { parts: [], joints: [] } })
    .run();
  const protections = antiFlowOn.map((guards) => ({ kind: 'anti_flow' as const, guards }));
  db.insert(plans)
    .values({
      ...made,
      id: planId,
      state: 'replaced',
      designId,
      origin: 'by_hand',
      body: { heats: [{ joints: [], solder: 'easy', protections }] },
      bench: { torch: 'medium', support: 'brick', riseK },
      solders: [],
      checkResult: { heats: [{ earlierJoints }] } as never,
    })
    .run();
  const heat = { id, pieceId, planId, number: planNumber, position: 1, joints: [], purpose: 'solder', plannedTenthMg: 0 };
  const times = { litBy, alightAt: at, endedAt: at, createdAt: at };
  db.insert(heats)
    .values({ ...heat, ...times, outcome, state: outcome === 'flowed' ? 'cleared' : 'spoilt' })
    .run();
  db.insert(journal)
    .values({ at, what: 'heat', thingId: id, before: { state: 'primed' }, after: { state: 'alight' } })
    .run();
  return id;
}

let planNumber = 0;

/** The line of the journal that says that a joint moved, or what else became of it. */
export function putJointLine({ db, clock }: TestApp, pieceId: string, jointId: string, was = 'sound', is = 'moved'): void {
  const [before, after] = [
    { jointId, state: was },
    { jointId, state: is },
  ];
  db.insert(journal).values({ at: clock.now().toISOString(), what: 'joint', thingId: pieceId, before, after }).run();
}

/** Something that went wrong, as it stands in the book. */
export function putIncident(
  { db, clock, actors }: TestApp,
  incident: { pieceId: string; kind: string } & Partial<typeof incidents.$inferInsert>,
): string {
  const at = clock.now();
  return db
    .insert(incidents)
    .values({
      id: newId(at),
      state: 'seen',
      seenBy: actors.bench.personId,
      seenAt: at.toISOString(),
      createdAt: at.toISOString(),
      ...incident,
    })
    .returning()
    .get().id;
}

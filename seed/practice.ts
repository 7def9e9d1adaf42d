import type { Design } from '../shared/design/design.ts';
import { planPiece, workHeat } from './bench-work.ts';
import type { Story } from './calendar.ts';
import { mutable, takeDown, type Order } from './commission-story.ts';
import { grainRing, pendant } from './designs.ts';
import { sent } from './sent.ts';
import type { Studio } from './studio.ts';

/** A student's pendant: drawn, planned by the student, waiting for a tutor's yes. */
export async function* practicePiece(studio: Studio): Story {
  const { services, people, clock } = studio;
  const { pieceId } = yield* drawn(studio, 'Practice pendant', pendant);
  const plan = await planPiece(services, people.student, pieceId, { search: { policy: 'do_not_run', targetMarginK: 0 } });
  services.bench.plans.move(people.student, plan.id, sent(clock, 'draft', 'checked'));
}

/** A student's ring: planned, signed, and worked heat by heat but for the last, each guessed first and lit on a tutor's yes. */
export async function* practiceRing(studio: Studio): Story {
  const { services, people, clock } = studio;
  const { pieces, plans, heats, guesses } = services.bench;
  const studentId = people.student.personId;
  const { pieceId, commissionId } = yield* drawn(studio, 'Practice ring', grainRing);
  const plan = await planPiece(services, people.student, pieceId, { search: { policy: 'do_not_run', targetMarginK: 0 } });
  plans.move(people.student, plan.id, sent(clock, 'draft', 'checked'));
  plans.move(people.owner, plan.id, sent(clock, 'checked', 'signed'));
  plans.move(people.bench, plan.id, sent(clock, 'signed', 'in_use'));
  services.commissions.move(people.bench, commissionId, sent(clock, 'agreed', 'on_bench'));
  pieces.move(people.bench, pieceId, sent(clock, 'drawn', 'cut', { metalIssuedG: 9 }));
  for (const { id, position } of heats.list(people.bench, { pieceId, limit: 200 }).items.toReversed().slice(0, -1)) {
    yield 1;
    const joints = guesses.list(people.student, plan.id).guessFirst.find(({ heat }) => heat === position)?.joints ?? [];
    // The student trusts that every joint stays solid, but for the last of each heat.
    const guessed = joints.map((joint, index) => ({ joint, guess: index === joints.length - 1 ? 'softens' : 'solid' }) as const);
    if (guessed.length > 0) guesses.add(people.student, plan.id, { heat: position, guesses: guessed });
    heats.sayTutorsYes(people.owner, id, { studentId, yes: true });
    workHeat(studio, id, { hand: people.student });
  }
}

async function* drawn(
  studio: Studio,
  title: string,
  design: Design,
): AsyncGenerator<number, { pieceId: string; commissionId: string }> {
  const { services, people, clock } = studio;
  const commission = takeDown(studio, { ...PRACTICE, title, design });
  yield 1;
  services.commissions.move(people.owner, commission.id, sent(clock, 'asked', 'shaping'));
  services.commissions.move(people.owner, commission.id, sent(clock, 'shaping', 'agreed'));
  const piece = services.bench.pieces.add(people.bench, { commissionId: commission.id, title, metal: 'sterling-925' });
  services.bench.designs.put(people.bench, piece.id, () => 0, mutable(design));
  yield 1;
  return { pieceId: piece.id, commissionId: commission.id };
}

const PRACTICE: Omit<Order, 'title' | 'design'> = {
  client: null,
  kind: 'teaching_piece',
  dueInDays: 40,
  finePerG: '1.06',
  pace: 2,
};

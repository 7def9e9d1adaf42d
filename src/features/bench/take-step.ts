import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { fenceErrors } from '../../platform/http/fences.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { fieldErrors } from '../../platform/http/validate.ts';
import type { BenchTimeService } from '../bench-time/index.ts';
import { holdToKnownRecord, type PieceFeature } from '../pieces/index.ts';
import type { SolderLotService } from '../stock/index.ts';
import { findStep } from './bench-steps.store.ts';
import { STEPS, type Step, type StepSent } from './bench-steps.schema.ts';
import { undoStep } from './undo-step.ts';

export interface StepServices {
  pieces: Pick<PieceFeature, 'heats' | 'pieces' | 'joints' | 'incidents' | 'guesses'>;
  solderLots: Pick<SolderLotService, 'weigh'>;
  benchTimes: BenchTimeService;
}

/** A step in the shape its kind has, or every field that cannot be used. */
export function parseStep(sent: StepSent): Step {
  const schema: z.ZodType = STEPS[sent.do];
  const parsed = schema.safeParse(sent, { reportInput: true });
  const errors = parsed.success ? [] : parsed.error.issues.flatMap((issue) => fieldErrors(issue, ''));
  const confirmed = (sent['confirm'] as Step['confirm']) ?? null;
  const outside = fenceErrors(schema, sent);
  if (!parsed.success) throw invalidFields([...errors, ...outside]);
  holdFields(outside, confirmed);
  return parsed.data as Step;
}

/** The time that a step started: a device without a network does not know its id. */
function timeStartedBy(tx: Db, { personId }: Actor, key: string): string {
  const step = findStep(tx, personId, key);
  const id = step?.kind === 'start_time' ? (step.answer.result as { id?: string } | null)?.id : undefined;
  if (id !== undefined) return id;
  const says = step ? `step ${key} has started no time` : `step ${key} has not come yet`;
  throw new Problem('condition-not-met', `Cannot move this time: ${says}`, { missing: [says] });
}

/** Does one step, as the route of the same name would, and shows the record after it. */
export function takeStep(
  tx: Db,
  { pieces, benchTimes, solderLots }: StepServices,
  { actor, step, now }: { actor: Actor; step: Step; now: Date },
): unknown {
  const { key: _key, confirm: _confirm, ...sent } = step;
  switch (sent.do) {
    case 'move_heat': {
      const { do: _do, heatId, ...move } = sent;
      holdToKnownRecord(tx, actor, { thing: 'heat', id: heatId });
      return pieces.heats.move(actor, heatId, move);
    }
    case 'see_in_heat': {
      const { do: _do, heatId, ...sighting } = sent;
      holdToKnownRecord(tx, actor, { thing: 'heat', id: heatId });
      return pieces.heats.see(actor, heatId, sighting);
    }
    case 'move_piece': {
      const { do: _do, pieceId, ...move } = sent;
      holdToKnownRecord(tx, actor, { thing: 'piece', id: pieceId });
      return pieces.pieces.move(actor, pieceId, move);
    }
    case 'move_joint': {
      const { do: _do, pieceId, joint, ...move } = sent;
      holdToKnownRecord(tx, actor, { thing: 'piece', id: pieceId });
      return pieces.joints.move(actor, pieceId, joint, move);
    }
    case 'move_bench_time': {
      const { do: _do, benchTimeId, startedBy, ...move } = sent;
      if (benchTimeId !== undefined) return benchTimes.move(actor, benchTimeId, move);
      const own = timeStartedBy(tx, actor, startedBy!);
      return benchTimes.endedSooner(actor, own, move) ?? benchTimes.move(actor, own, move);
    }
    case 'start_time': {
      const { do: _do, occurredAt, deviceId: _id, deviceSeq: _seq, ...time } = sent;
      return benchTimes.add(actor, { ...time, startedAt: time.startedAt ?? occurredAt }, true);
    }
    case 'note_incident': {
      const { do: _do, occurredAt, deviceId: _id, deviceSeq: _seq, ...incident } = sent;
      return pieces.incidents.add(actor, { ...incident, seenAt: incident.seenAt ?? occurredAt });
    }
    case 'weigh_lot': {
      if (!actor.roles.has('bench')) throw new Problem('forbidden', 'Cannot weigh a lot: that is for bench hands');
      const { lotId, weighedG, reason, occurredAt } = sent;
      return solderLots.weigh(actor, lotId, { weighedG, reason }, occurredAt);
    }
    case 'guess': {
      const { planId, heat, guesses } = sent;
      holdToKnownRecord(tx, actor, { thing: 'plan', id: planId });
      return pieces.guesses.add(actor, planId, { heat, guesses });
    }
    case 'undo':
      return undoStep(tx, writtenBy(actor, now), { personId: actor.personId, ...sent, key: step.key });
    default:
      return sent satisfies never;
  }
}

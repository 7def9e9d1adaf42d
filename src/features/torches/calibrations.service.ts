import type { z } from 'zod';
import type { TorchCalibration } from '../../../shared/thermal/calibration/calibrate-torch.ts';
import type { ObservedHeat } from '../../../shared/thermal/calibration/observation.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { knownObservations, type Planning } from '../calculations/index.ts';
import { findObservedHeat, knowsRecord } from '../pieces/index.ts';
import type { CalibrationList, CalibrationQuery, CalibrationReply, NewCalibration } from './calibrations.schema.ts';
import * as store from './calibrations.store.ts';
import { getTorch } from './torches.service.ts';

export type CalibrationService = ReturnType<typeof createCalibrationService>;

type Asked = z.infer<typeof NewCalibration>;
/** A calibration that is not kept yet. */
type Fitted = Pick<store.CalibrationRow, 'torchId' | 'answer' | 'heatIds' | 'observations' | 'strips'>;

export function createCalibrationService({ db, clock }: Platform, planning: Planning) {
  return {
    /** What the observations say of the torch in this person's hands. Keeps nothing; the server answers others in between. */
    async fit(
      actor: Actor,
      { torchId, heatIds, observations: others, strips: asked }: Asked,
      gone?: AbortSignal,
    ): Promise<Fitted> {
      const { torch } = getTorch(db, torchId);
      const { observations: elsewhere, strips } = knownObservations(db, { observations: others, strips: asked });
      const observations = [...heatsOfBook(db, actor, torchId, heatIds), ...elsewhere];
      const answer = await planning.calibrate({ personId: actor.personId, gone }, { torch, observations, strips });
      if (!answer.power.toldByData)
        throw new Problem('condition-not-met', `Cannot calibrate the torch: ${answer.says.join('. ')}`, { says: answer.says });
      return { torchId, answer, heatIds, observations, strips };
    },

    /** From now on every check and search of this person with this torch goes by it. */
    keep(actor: Actor, fitted: Fitted) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { personId } = actor;
        const row = store.insertCalibration(tx, {
          ...fitted,
          id: newId(by.at),
          personId,
          version: (store.findNewest(tx, personId, fitted.torchId)?.version ?? 0) + 1,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'calibration', id: row.id, after: summary(row) });
        return whole(row);
      });
    },

    get(actor: Actor, id: string) {
      const row = store.findCalibration(db, id);
      if (!row || (seesOwnOnly(actor) && row.personId !== actor.personId)) throw notFound('calibration', id);
      return whole(row);
    },

    list(actor: Actor, query: z.infer<typeof CalibrationQuery>) {
      const sought = { ...query, onlyOf: seesOwnOnly(actor) ? actor.personId : undefined };
      return pageOf(store.listCalibrations(db, sought), query, summary);
    },
  };
}

/** A calibration holds the designs it was fitted to, and a student does not know every piece. */
function seesOwnOnly({ roles }: Actor): boolean {
  return !roles.has('bench');
}

/** Heats that this person lit with this torch, as they were, with the times that were noted. */
function heatsOfBook(db: Db, actor: Actor, torchId: string, heatIds: readonly string[]): ObservedHeat[] {
  const errors: FieldError[] = [];
  const found = heatIds.flatMap((id, index) => {
    const refuse = (detail: string) => {
      errors.push({ pointer: `/heatIds/${index}`, detail, given: id });
      return [];
    };
    const heat = knowsRecord(db, actor, { thing: 'heat', id }) ? findObservedHeat(db, id) : undefined;
    if (!heat) return refuse('There is no such heat.');
    if (heat.litBy !== actor.personId) return refuse(`${heat.number} was not lit by you: a calibration is of one pair of hands.`);
    if (heat.torchId !== undefined && heat.torchId !== torchId) return refuse(`${heat.number} was planned for another torch.`);
    if (!heat.observation) return refuse(`No times were noted for ${heat.number}.`);
    return [heat.observation];
  });
  if (errors.length > 0) throw invalidFields(errors);
  return found;
}

function summary(row: store.CalibrationRow): z.infer<typeof CalibrationList> {
  const { answer, observations: _observations, strips: _strips, ...rest } = row;
  return { ...rest, ...(answer satisfies TorchCalibration) };
}

function whole(row: store.CalibrationRow): z.infer<typeof CalibrationReply> {
  // The stored JSON was written by the schemas; its readonly lists are the reply's lists.
  const { observations, strips } = row;
  return { ...summary(row), observations, strips } as unknown as z.infer<typeof CalibrationReply>;
}

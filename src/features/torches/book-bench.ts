import type { Bench } from '../../../shared/design/plan.ts';
import type { Db } from '../../platform/db/client.ts';
import type { BookBench } from '../../platform/db/json-columns.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { findNewest } from './calibrations.store.ts';
import { findTorch } from './torches.store.ts';

/** A bench as it is asked for: with a torch of the book by its id, or one that is described. */
export type AskedBench = Omit<Bench, 'torch'> & { torch?: Bench['torch']; torchId?: string | null };

/**
 * The bench to check by. A torch of the book is as it stands there, with the newest calibration of it in this person's hands, if there
 * is one; any other bench is as it was asked for.
 *
 * @throws {Problem} `invalid-fields` for a torch that is not in the book
 */
export function benchFromBook(db: Db, personId: string, { torchId, torch, ...bench }: AskedBench): BookBench {
  if (torchId === undefined || torchId === null) return { ...bench, torch: torch! };
  holdToTorch(db, torchId);
  const answer = findNewest(db, personId, torchId)?.answer;
  const calibration = answer
    ? { powerFactor: answer.power.value, lossFactor: answer.loss.value, spreadFactor: answer.spread.value }
    : null;
  return { ...bench, torch: findTorch(db, torchId)!.torch, torchId, calibration };
}

/** @throws {Problem} `invalid-fields` at the bench's torchId unless it is a torch of the book */
export function holdToTorch(db: Db, torchId: string): void {
  if (findTorch(db, torchId)) return;
  throw invalidFields([{ pointer: '/bench/torchId', detail: 'There is no such torch in the book.', given: torchId }]);
}

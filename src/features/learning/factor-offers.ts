import { factorInWords } from '../../../shared/learning/factor-in-words.ts';
import { learnedFactor, NEW_STUDIO_FACTOR, type LearnedFactor } from '../../../shared/learning/learned-factor.ts';
import { newestRecords, recordsFor } from '../../../shared/learning/newest-records.ts';
import { operationFamily } from '../../../shared/learning/operation-family.ts';
import type { Db } from '../../platform/db/client.ts';
import { operationRecords, type OperationRecord } from './time-records.ts';

/** A factor as it is offered: with what it comes from. */
export interface FactorOffer extends LearnedFactor {
  operation: string;
  /** Whose records; null: everybody's. */
  personId: string | null;
  prior: number;
  /** Where the prior comes from: the operation's family, or a new studio. */
  priorFrom: string;
  says: string;
  records: OperationRecord[];
}

/** Records that a family needs before its factor is the prior of its operations. */
const FAMILY_ENOUGH = 5;

/** For every operation with records: what everybody's say, and those of each person who has eight or more. */
export function factorOffers(db: Db, now: string): FactorOffer[] {
  const all = operationRecords(db);
  const operations = [...new Set(all.map(({ operation }) => operation))].toSorted();
  return operations.flatMap((operation) => {
    const records = all.filter((record) => record.operation === operation);
    const people = [...new Set(records.map(({ personId }) => personId))].toSorted();
    const own = people.flatMap((personId) => {
      const found = recordsFor(records, personId);
      return found.own ? [offer(all, { operation, personId, records: found.records, now })] : [];
    });
    return [offer(all, { operation, personId: null, records, now }), ...own];
  });
}

function offer(
  all: readonly OperationRecord[],
  { operation, personId, records, now }: { operation: string; personId: string | null; records: OperationRecord[]; now: string },
): FactorOffer {
  const newest = newestRecords(records, now);
  const ratios = newest.map(({ ratio }) => ratio);
  const { prior, priorFrom } = priorOf(all, operation, now);
  return {
    operation,
    personId,
    prior,
    priorFrom,
    ...learnedFactor(ratios, prior),
    says: factorInWords(operation, ratios),
    records: newest,
  };
}

/** What the others of its family say, where they have enough records; else what a new studio starts with. */
function priorOf(all: readonly OperationRecord[], operation: string, now: string): { prior: number; priorFrom: string } {
  const family = operationFamily(operation);
  const others = newestRecords(
    all.filter((record) => record.operation !== operation && operationFamily(record.operation) === family),
    now,
  );
  if (others.length < FAMILY_ENOUGH) return { prior: NEW_STUDIO_FACTOR, priorFrom: 'a new studio' };
  return {
    prior: learnedFactor(others.map(({ ratio }) => ratio)).factor,
    priorFrom: `other ${family}, ${others.length} records`,
  };
}

import { labourMinutes } from '../../../shared/costing/labour-minutes.ts';
import { operationsFromPlan } from '../../../shared/costing/operations-from-plan.ts';
import { pieceMinutes, unlearnedFactor } from '../../../shared/learning/learned-factor.ts';
import type { LabourLine } from '../../../shared/costing/estimate-request.ts';
import { sum } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import { factorInUse } from '../learning/index.ts';
import { currentDesign, livePiecesOf, planForPricing } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { quoteOf, type QuoteRow } from './reports.store.ts';

export interface PlannedWork {
  quote: QuoteRow | undefined;
  minutes: number;
  /** Under these it stays eight times in ten. */
  eightInTenMinutes: number;
  basis: 'quote' | 'plan' | 'none';
  notes: string[];
}

/** Minutes at the bench that a commission was quoted at; without a quote, what its designs and plans call for. */
export function plannedWork(db: Db, commission: { id: string; quantity: number }): PlannedWork {
  const quote = quoteOf(db, commission.id);
  if (quote) {
    const notes = quote.state === 'accepted' ? [] : [`quote ${quote.number} is ${quote.state}, not accepted`];
    return {
      quote,
      ...minutesOf(
        db,
        quote.request.labour.filter(({ role }) => role !== 'desk'),
      ),
      basis: 'quote',
      notes,
    };
  }
  const factor = getSettings(db).newStudioFactor;
  const pieces = livePiecesOf(db, commission.id);
  const planned = pieces.map((piece) => {
    const design = currentDesign(db, piece.id)?.body;
    const plan = planForPricing(db, piece.id)?.body;
    const labour = design && plan ? operationsFromPlan({ design, plan }) : null;
    return {
      piece,
      labour: labour && labour.map((line) => ({ ...line, factor: factorInUse(db, line.operation)?.factor ?? factor })),
    };
  });
  const known = planned.flatMap(({ labour }) => labour ?? []);
  return {
    quote,
    ...minutesOf(db, known),
    basis: known.length > 0 ? 'plan' : 'none',
    notes: [
      known.length > 0
        ? `no quote: minutes from design and plan at the usual times × ${factor}`
        : 'no quote, and no design with a plan: the minutes are not known',
      ...(known.length > 0
        ? planned
            .filter(({ labour }) => labour === null)
            .map(({ piece }) => `${piece.number} has no plan: its minutes are not in`)
        : []),
      ...(pieces.length < commission.quantity && known.length > 0
        ? [`${pieces.length} of ${commission.quantity} pieces are noted`]
        : []),
    ],
  };
}

/** What is expected, and what it stays under eight times in ten, by what was learned of each operation. */
function minutesOf(db: Db, labour: readonly LabourLine[]): Pick<PlannedWork, 'minutes' | 'eightInTenMinutes'> {
  const operations = labour.map((line) => {
    const { shrunkSpread } = factorInUse(db, line.operation) ?? unlearnedFactor();
    // The factor of the line is in its minutes.
    return { minutes: labourMinutes(line).toNumber(), factor: 1, shrunkSpread };
  });
  return {
    minutes: sum(labour.map((line) => labourMinutes(line))).toNumber(),
    eightInTenMinutes: pieceMinutes(operations).eightInTen,
  };
}

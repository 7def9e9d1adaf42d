import { labourMinutes } from '../../../shared/costing/labour-minutes.ts';
import { operationsFromPlan } from '../../../shared/costing/operations-from-plan.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { pieceMinutes, unlearnedFactor } from '../../../shared/learning/learned-factor.ts';
import type { LabourLine } from '../../../shared/costing/estimate-request.ts';
import { sum } from '../../../shared/decimal.ts';
import { onceEach } from '../../../shared/once-each.ts';
import type { Db } from '../../platform/db/client.ts';
import { factorInUse } from '../learning/index.ts';
import { drawnPieces, piecesOfAll, type DrawnPiece, type PieceRow } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { quotesOf, type QuoteRow } from './reports.store.ts';

export interface PlannedWork {
  quote: QuoteRow | undefined;
  minutes: number;
  /** Under these it stays eight times in ten. */
  eightInTenMinutes: number;
  basis: 'quote' | 'plan' | 'none';
  notes: string[];
}

interface Commission {
  id: string;
  quantity: number;
}

/** What was accepted of each operation, everybody's records together. */
type Learned = (operation: string) => ReturnType<typeof factorInUse>;

/**
 * Minutes at the bench that each of some commissions was quoted at; of one without a quote, what its designs and plans call for. All of
 * their quotes are in memory at once.
 */
export function plannedWork(db: Db, commissions: readonly Commission[]): (commission: Commission) => PlannedWork {
  const learned = onceEach((operation) => factorInUse(db, operation));
  const quotes = quotesOf(
    db,
    commissions.map(({ id }) => id),
  );
  const unpriced = commissions.flatMap(({ id }) => (quotes.has(id) ? [] : [id]));
  const live = piecesOfAll(db, unpriced).filter(({ state }) => state !== 'scrapped');
  const pieces = groupBy(live, ({ commissionId }) => commissionId);
  const drawn = drawnPieces(
    db,
    live.map(({ id }) => id),
  );
  const { newStudioFactor } = getSettings(db);
  return (commission) => {
    const quote = quotes.get(commission.id);
    if (quote) return asQuoted(quote, learned);
    return asDrawn(pieces.get(commission.id) ?? [], { quantity: commission.quantity, drawn, learned, newStudioFactor });
  };
}

function asQuoted(quote: QuoteRow, learned: Learned): PlannedWork {
  const labour = quote.request.labour.filter(({ role }) => role !== 'desk');
  const notes = quote.state === 'accepted' ? [] : [`quote ${quote.number} is ${quote.state}, not accepted`];
  return { quote, ...minutesOf(labour, learned), basis: 'quote', notes };
}

interface Drawn {
  quantity: number;
  drawn: ReadonlyMap<string, DrawnPiece>;
  learned: Learned;
  newStudioFactor: number;
}

function asDrawn(pieces: readonly PieceRow[], { quantity, drawn, learned, newStudioFactor: factor }: Drawn): PlannedWork {
  const planned = pieces.map((piece) => {
    const { design, plan } = drawn.get(piece.id) ?? {};
    const labour = design && plan ? operationsFromPlan({ design, plan: plan.body }) : null;
    return {
      piece,
      labour: labour && labour.map((line) => ({ ...line, factor: learned(line.operation)?.factor ?? factor })),
    };
  });
  const known = planned.flatMap(({ labour }) => labour ?? []);
  return {
    quote: undefined,
    ...minutesOf(known, learned),
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
      ...(pieces.length < quantity && known.length > 0 ? [`${pieces.length} of ${quantity} pieces are noted`] : []),
    ],
  };
}

/** What is expected, and what it stays under eight times in ten, by what was learned of each operation. */
function minutesOf(labour: readonly LabourLine[], learned: Learned): Pick<PlannedWork, 'minutes' | 'eightInTenMinutes'> {
  const lines = labour.map((line) => ({ operation: line.operation, minutes: labourMinutes(line) }));
  const operations = lines.map(({ operation, minutes }) => {
    const { shrunkSpread } = learned(operation) ?? unlearnedFactor();
    // The factor of the line is in its minutes.
    return { minutes: minutes.toNumber(), factor: 1, shrunkSpread };
  });
  return {
    minutes: sum(lines.map(({ minutes }) => minutes)).toNumber(),
    eightInTenMinutes: pieceMinutes(operations).eightInTen,
  };
}

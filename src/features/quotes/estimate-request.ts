import type { EstimateRequest, LabourLine } from '../../../shared/costing/estimate-request.ts';
import type { Joint } from '../../../shared/design/design.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { MOST_OF_ALL_PIECES } from '../calculations/index.ts';
import type { CommissionRow } from '../commissions/index.ts';
import { drawnPieces, type PieceRow } from '../pieces/index.ts';
import { findPlaceRules } from '../place-rules/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { isRecord } from '../../platform/merge-patch.ts';
import { bookOf, pieceRequest, uniqueById, type PieceRequest } from './piece-request.ts';

/** A request as far as the book knows it: prices that nobody typed are absent. */
export type DraftRequest = Omit<EstimateRequest, 'metals' | 'solders' | 'policy'> &
  Pick<PieceRequest, 'metals' | 'solders'> & {
    policy: Omit<EstimateRequest['policy'], 'finePricePerG'> & { finePricePerG?: string };
  };

/** What is asked of the pieces besides themselves. */
export interface Asked {
  overrides: Readonly<Record<string, unknown>>;
  copies: number;
  isRun: boolean;
  place: string | null;
}

/** What a commission asks of its pieces: how many, whether as a run, and sold where. */
export function askedBy({ quantity, kind, placeOfSale }: CommissionRow): Omit<Asked, 'overrides'> {
  return { copies: quantity, isRun: kind === 'small_run', place: placeOfSale };
}

/** What stands in the book for so many pieces is read at once, so that no more is read than can be priced. */
const READ_AT_ONCE = 50;

/** Of sterling at 20 °C; recipe 1 takes it for every metal. @source material page, as in the table of metals */
const SPECIFIC_HEAT_J_PER_GK = 0.245;

/**
 * The request of an estimate for some pieces together, from designs, plans, settings and stock.
 *
 * @param copies how many pieces there will be: those that are not drawn yet are taken to be like the last one
 * @param isRun whether they are made as a run: set up once, and each faster than the one before
 * @param place of sale, whose tax rate goes before that of the settings where the studio has entered one
 * @throws {Problem} condition-not-met, naming every design and plan that is missing
 */
export function buildRequest(db: Db, pieces: readonly PieceRow[], { overrides, copies, isRun, place }: Asked): DraftRequest {
  const settings = getSettings(db);
  const byHand = { design: 'design' in overrides, heats: 'heats' in overrides };
  const book = bookOf(db, settings);
  const found: ReturnType<typeof pieceRequest>[] = [];
  for (let begin = 0; begin < pieces.length; begin += READ_AT_ONCE) {
    const some = pieces.slice(begin, begin + READ_AT_ONCE);
    const drawn = drawnPieces(
      db,
      some.map(({ id }) => id),
    );
    found.push(...some.map((piece) => pieceRequest(piece, drawn.get(piece.id), { book, byHand })));
    holdToSize(found.flatMap((one) => ('missing' in one ? [] : [one])));
  }
  const missing = found.flatMap((one) => ('missing' in one ? one.missing : []));
  if (pieces.length === 0 && !byHand.design) missing.push('there is no piece yet');
  if (missing.length > 0) throw new Problem('condition-not-met', `Cannot price this: ${missing.join('; ')}`, { missing });
  const known = found.flatMap((one) => ('missing' in one ? [] : [one]));
  const last = known.at(-1);
  const all = last ? [...known, ...Array.from({ length: Math.max(0, copies - known.length) }, () => last)] : [];
  holdToSize(all);
  const request = together(all);
  const labour = isRun ? asRun(request.labour, all.length, settings) : request.labour;
  const rate = place === null ? null : (findPlaceRules(db, place)?.taxRateFraction ?? null);
  const tax = rate === null ? settings.tax : { ...settings.tax, rateFraction: rate };
  return { currency: settings.currency, ...request, labour, ...workshop({ ...settings, tax }) };
}

/** @throws {Problem} condition-not-met for more than a request may list */
function holdToSize(pieces: readonly PieceRequest[]): void {
  const count = (of: (piece: PieceRequest) => number) => pieces.reduce((sum, piece) => sum + of(piece), 0);
  const most = Math.max(
    count(({ design }) => design.parts.length),
    count(({ design }) => design.joints.length),
    count(({ heats }) => heats.length),
  );
  if (most > MOST_OF_ALL_PIECES)
    throw new Problem(
      'condition-not-met',
      `Cannot price this at once: all its pieces together have more than ${MOST_OF_ALL_PIECES} parts, joints or heats; divide it into several commissions`,
    );
}

function together(pieces: PieceRequest[]): PieceRequest {
  const named = pieces.length === 1 ? pieces : metalsApart(pieces).map((piece, index) => underName(piece, `p${index + 1}.`));
  return {
    metals: uniqueById(named.flatMap(({ metals }) => metals)),
    solders: uniqueById(named.flatMap(({ solders }) => solders)),
    design: {
      parts: named.flatMap(({ design }) => design.parts),
      joints: named.flatMap(({ design }) => design.joints),
    },
    heats: named.flatMap(({ heats }) => heats),
    labour: sumByOperation(named.flatMap(({ labour }) => labour)),
  };
}

/** A metal that a later piece keeps with other numbers than an earlier one is another metal in the request. */
function metalsApart(pieces: PieceRequest[]): PieceRequest[] {
  const first = new Map<string, PieceRequest['metals'][number]>();
  return pieces.map((piece, index) => {
    const idIn = new Map(
      piece.metals.map((metal) => {
        const { id, densityGPerCm3, fineness } = first.get(metal.id) ?? metal;
        if (!first.has(id)) first.set(id, metal);
        const isSame = densityGPerCm3 === metal.densityGPerCm3 && fineness === metal.fineness;
        return [id, isSame ? id : `${id}, as in p${index + 1}`];
      }),
    );
    return {
      ...piece,
      metals: piece.metals.map((metal) => ({ ...metal, id: idIn.get(metal.id)! })),
      design: { ...piece.design, parts: piece.design.parts.map((part) => ({ ...part, metal: idIn.get(part.metal)! })) },
    };
  });
}

/** The same piece with every id of part and joint under a name of its own. */
function underName(piece: PieceRequest, name: string): PieceRequest {
  const inside = (ids: readonly string[]) => ids.map((id) => name + id);
  return {
    ...piece,
    design: {
      parts: piece.design.parts.map((part) => ({ ...part, id: name + part.id })),
      joints: piece.design.joints.map((joint) => ({ ...joint, id: name + joint.id, ...placesUnder(joint, name) })),
    },
    heats: piece.heats.map((heat) => ({ ...heat, joints: inside(heat.joints), parts: inside(heat.parts) })),
  };
}

function placesUnder({ closes, between }: Partial<Pick<Joint, 'closes' | 'between'>>, name: string) {
  if (closes !== undefined) return { closes: name + closes };
  if (between === undefined) return {};
  const [a, b] = between;
  return {
    between: [
      { ...a, part: name + a.part },
      { ...b, part: name + b.part },
    ] as const,
  };
}

function sumByOperation(lines: LabourLine[]): LabourLine[] {
  const sums = new Map<string, LabourLine>();
  for (const line of lines) {
    const minutes = (sums.get(line.operation)?.minutes ?? 0) + line.minutes;
    sums.set(line.operation, { ...line, minutes: Math.round(minutes * 10) / 10 });
  }
  return [...sums.values()];
}

/** Minutes of all pieces as those of the first in a run, and what is done once for all of them. */
function asRun(labour: LabourLine[], pieces: number, { smallRun, newStudioFactor }: Settings): LabourLine[] {
  if (pieces < 2) return labour;
  const { learningFraction, setupMinutes } = smallRun;
  return [
    ...(setupMinutes > 0
      ? [{ operation: 'setting up the run', role: 'bench', minutes: setupMinutes, factor: newStudioFactor }]
      : []),
    ...labour.map((line) => ({
      ...line,
      minutes: Math.round((line.minutes / pieces) * 1000) / 1000,
      run: { pieces, learningFraction },
    })),
  ];
}

function workshop(settings: Settings): Pick<DraftRequest, 'flux' | 'pickle' | 'gas' | 'passThrough' | 'policy'> {
  const { efficiencyFraction, oxygenPricePerG, ...gas } = settings.gas;
  const { roundUpToMinor, ...tax } = settings.tax;
  return {
    flux: settings.flux,
    pickle: settings.pickle,
    gas: {
      ...gas,
      efficiency: efficiencyFraction,
      specificHeatJPerGK: SPECIFIC_HEAT_J_PER_GK,
      ...(typeof oxygenPricePerG === 'string' ? { oxygenPricePerG } : {}),
    },
    passThrough: [],
    policy: {
      waste: settings.waste,
      ...(settings.finePrice ? { finePricePerG: settings.finePrice.perG } : {}),
      scrapCredit: settings.scrapCredit,
      ratesPerHour: settings.ratesPerHour,
      overheadPerBenchHour: settings.overheadPerBenchHour,
      consumablesPerBenchHour: settings.consumablesPerBenchHour,
      contingencyFraction: settings.contingencyFraction,
      profit: settings.profit,
      discountFraction: settings.discountFraction,
      tax: { ...tax, ...(typeof roundUpToMinor === 'number' ? { roundUpToMinor } : {}) },
      depositFraction: settings.depositFraction,
    },
  };
}

/** Every price a request still lacks, in words. */
export function missingPrices(request: unknown): string[] {
  if (!isRecord(request)) return [];
  const unpriced = (member: string, what: string) =>
    (Array.isArray(request[member]) ? request[member] : [])
      .filter((one) => isRecord(one) && one['price'] === undefined)
      .map((one) => `${what} ${String((one as Record<string, unknown>)['id'])}`);
  const { policy } = request;
  return [
    ...(isRecord(policy) && policy['finePricePerG'] === undefined ? ['fine silver'] : []),
    ...unpriced('metals', 'metal'),
    ...unpriced('solders', 'solder'),
  ];
}

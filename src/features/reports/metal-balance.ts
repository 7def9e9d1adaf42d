import type { z } from 'zod';
import type { Design } from '../../../shared/design/design.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import { slicesOf } from '../../../shared/slices-of.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { getSettings } from '../settings/index.ts';
import { issuedToPieces, toG, toTenthMg } from '../stock/index.ts';
import { momentsOf, round, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';
import type { MetalBalanceReply } from './stock-reports.schema.ts';
import { newestDesigns, piecesNoted, type PieceRow } from './stock-reports.store.ts';

type Report = z.infer<typeof MetalBalanceReply>;
type Row = Report['rows'][number];

/** So many designs are in memory at once, whatever the period. */
const AT_ONCE = 250;

/** Where the metal is that went to the bench: in work, in pieces, back in the drawer, in the jars; the rest is unexplained. */
export function metalBalance(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone, waste } = getSettings(db);
  const noted = piecesNoted(db, momentsOf(period, timeZone)).filter(({ piece }) =>
    within(dateInZone(new Date(piece.createdAt), timeZone), period),
  );
  const lines = slicesOf(noted, AT_ONCE)
    .flatMap((pieces) => balancesOf(db, pieces, waste))
    .filter(({ issued }) => issued > 0);
  const rows = [...groupBy(lines, ({ metal }) => metal)].map(([metal, own]): Row => {
    const total = (pick: (line: Line) => number) => own.reduce((sum, line) => sum + pick(line), 0);
    const issued = total((line) => line.issued);
    const unexplained = issued - total((line) => line.inWork + line.inPiece + line.putBack + line.jar);
    return {
      metal,
      issuedG: toG(issued),
      inWorkG: toG(total((line) => line.inWork)),
      inPiecesG: toG(total((line) => line.inPiece)),
      putBackG: toG(total((line) => line.putBack)),
      jarG: toG(total((line) => line.jar)),
      unexplainedG: toG(unexplained),
      unexplainedFraction: round(unexplained / issued, 4),
      entries: { pieceIds: own.map(({ pieceId }) => pieceId) },
    };
  });
  return {
    report: 'metal-balance',
    asOf: now.toISOString(),
    ...period,
    about: [
      'Pieces laid out in the period, by the metal they are mainly of; issued as the piece has it, or as the ledger of metal does',
      'In pieces: as weighed, solder and all; a built piece that was not weighed as its design computes it; of a repair what was issued for it',
      'Jars: the share of filings in the settings of what was built, and the metal weighed in of what was scrapped',
      'Unexplained: issued less all of that; polishing sweep and what nobody noted',
    ],
    rows: rows.toSorted((a, b) => a.metal.localeCompare(b.metal)),
  };
}

interface Line {
  pieceId: string;
  metal: string;
  issued: number;
  inWork: number;
  inPiece: number;
  putBack: number;
  jar: number;
}

function balancesOf(db: Db, pieces: ReturnType<typeof piecesNoted>, { filingsFraction }: { filingsFraction: number }): Line[] {
  const ids = pieces.map(({ piece }) => piece.id);
  const issued = issuedToPieces(db, ids);
  const designs = newestDesigns(db, ids);
  return pieces.map(({ piece, commission: { kind } }) =>
    balanceOf(piece, {
      kind,
      ledger: issued.get(piece.id) ?? { issuedTenthMg: 0, putBackTenthMg: 0 },
      design: designs.get(piece.id),
      filingsFraction,
    }),
  );
}

interface Known {
  kind: string;
  ledger: { issuedTenthMg: number; putBackTenthMg: number };
  design: Design | undefined;
  filingsFraction: number;
}

function balanceOf(piece: PieceRow, { kind, ledger, design, filingsFraction }: Known): Line {
  const fromLots = ledger.issuedTenthMg > 0;
  const issued = fromLots ? ledger.issuedTenthMg : (piece.metalIssuedTenthMg ?? 0);
  const putBack = fromLots ? ledger.putBackTenthMg : 0;
  const line = { pieceId: piece.id, metal: piece.metal, issued, putBack, inWork: 0, inPiece: 0, jar: 0 };
  if (piece.state === 'scrapped') return { ...line, jar: piece.metalReturnedTenthMg ?? 0 };
  if (piece.builtBy === null) return { ...line, inWork: issued - putBack };
  // Most of it came with it: its weight says nothing of what was issued.
  if (kind === 'repair') return { ...line, inPiece: issued - putBack };
  const net = design && design.parts.length > 0 ? toTenthMg(pieceWeight(design).totalG) : 0;
  return { ...line, inPiece: piece.weighedTenthMg ?? net, jar: Math.round(net * filingsFraction) };
}

export function metalBalanceCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'metal', value: ({ metal }) => metal },
    { header: 'issued_g', value: ({ issuedG }) => issuedG },
    { header: 'in_work_g', value: ({ inWorkG }) => inWorkG },
    { header: 'in_pieces_g', value: ({ inPiecesG }) => inPiecesG },
    { header: 'put_back_g', value: ({ putBackG }) => putBackG },
    { header: 'jar_g', value: ({ jarG }) => jarG },
    { header: 'unexplained_g', value: ({ unexplainedG }) => unexplainedG },
    { header: 'unexplained_fraction', value: ({ unexplainedFraction }) => unexplainedFraction },
  ];
  return csvOf(columns, rows);
}

import type { ReplyOf } from '../../api/reply.ts';
import type { MessageKey } from '../../words/words.ts';

export type Report = ReplyOf<'/api/v1/reports/{name}'>;
export type ReportName = Report['report'];
export type ReportOf<Name extends ReportName> = Extract<Report, { report: Name }>;
export type Money = { amountMinor: number; currency: string };

/** How a value is written; a word of a group is looked up there, such as commission.state. */
export type Kind =
  | 'text'
  | 'prose'
  | 'count'
  | 'ratio'
  | 'minutes'
  | 'hours'
  | 'mass'
  | 'money'
  | 'share'
  | 'date'
  | 'month'
  | 'days'
  | 'pH'
  | 'copper'
  | 'band'
  | { group: string };

/** What a joint was predicted to do, by its margin in K or, without one, by its verdict. */
export interface Band {
  by: 'solid_margin' | 'verdict';
  band: string;
  fromK: number | null;
  toK: number | null;
}

export type Value = string | number | Money | Band | readonly string[] | null | undefined;
type ColumnWord = MessageKey extends infer Key ? (Key extends `report.column.${infer Word}` ? Word : never) : never;

export interface Column<Row> {
  word: ColumnWord;
  kind: Kind;
  of: (row: Row) => Value;
  /** The page of what it names. */
  href?: (row: Row) => string;
}

/** The rows of a report and what is told of each, the first naming it. */
export interface Layout<Of extends Report, Row> {
  rows: (report: Of) => readonly Row[];
  columns: readonly Column<Row>[];
  /** What stands above the table. */
  sums?: (report: Of) => readonly { word: ColumnWord; kind: Kind; value: Value }[];
}

export type AnyLayout = Layout<Report, unknown>;

/** Holds the columns of a report to what the report answers; the table itself takes any. */
export function layout<Name extends ReportName, Row>(_name: Name, of: Layout<ReportOf<Name>, Row>): AnyLayout {
  return of as unknown as AnyLayout;
}

export const toCommission = ({ commissionId }: { commissionId: string }) => `/commissions/${commissionId}`;
export const toPiece = ({ pieceId }: { pieceId: string }) => `/pieces/${pieceId}`;

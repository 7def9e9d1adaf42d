import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { withoutGuard } from '../../platform/http/csv.ts';
import { fenceErrors } from '../../platform/http/fences.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { fieldErrors } from '../../platform/http/validate.ts';
import { readCell, type DecimalMark, type ListColumn } from './list-column.ts';
import { CONFIRM_REASON, type Body, type ListKind } from './list-kind.ts';

export type CellError = Omit<FieldError, 'pointer'> & { column: string };

export interface RowOutcome {
  row: number;
  key: string;
  outcome: 'made' | 'already_there' | 'refused';
  errors: CellError[];
  /** What was odd, and passed by the reason the row gives. */
  confirmed: CellError[];
}

export interface Reader {
  kind: ListKind;
  columns: readonly ListColumn[];
  header: readonly string[];
  decimal: DecimalMark;
}

/** Makes what a row is of, inside the transaction of the whole table, or says why not; refused, it has written nothing. */
export function takeRow(
  tx: Db,
  actor: Actor,
  { reader, row, cells }: { reader: Reader; row: number; cells: readonly string[] },
): RowOutcome {
  const { kind, header } = reader;
  if (cells.length !== header.length)
    return {
      row,
      key: '',
      outcome: 'refused',
      confirmed: [],
      errors: [
        {
          column: '',
          detail: `The row has ${cells.length} fields, the header ${header.length}: a field with a comma, semicolon or line break in it needs quotes.`,
        },
      ],
    };
  const read = readRow(reader, cells);
  const key = kind.keyOf(read.body);
  const refused = (errors: FieldError[], confirmed: CellError[] = []): RowOutcome => ({
    row,
    key,
    outcome: 'refused',
    errors: errors.map((error) => inCell(error, reader.columns)),
    confirmed,
  });
  if (read.errors.length === 0 && key !== '' && kind.isThere(tx, read.body))
    return { row, key, outcome: 'already_there', errors: [], confirmed: [] };
  const completed = kind.complete?.(tx, read.body) ?? { body: read.body, errors: [] };
  const known = [...read.errors, ...completed.errors];
  const passed: FieldError[] = [];
  // What is asked about is told in turns: of a field alone, then of fields together.
  for (;;) {
    const found = makeOrFault(actor, { kind, body: completed.body, known, passed, reason: read.reason });
    const confirmed = passed.map((error) => inCell(error, reader.columns));
    if (found === 'made') return { row, key, outcome: 'made', errors: [], confirmed };
    const asked = found.filter((error) => !isPassed(error, passed));
    if (read.reason === undefined || asked.length === 0 || asked.some(({ confirmable }) => !confirmable))
      return refused(asked.length === 0 ? found : asked, confirmed);
    passed.push(...asked);
  }
}

function readRow({ columns, header, decimal }: Reader, cells: readonly string[]) {
  const body: Body = {};
  const errors: FieldError[] = [];
  for (const column of columns) {
    const place = header.indexOf(column.header);
    const reading = place === -1 ? {} : readCell(withoutGuard(cells[place]!), column, decimal);
    if ('fault' in reading) errors.push({ pointer: column.pointer, ...reading.fault });
    else if (reading.value !== undefined) put(body, column.pointer.slice(1).split('/'), reading.value);
  }
  const place = header.indexOf(CONFIRM_REASON);
  const reason = place === -1 ? '' : withoutGuard(cells[place]!).trim();
  return { body, errors, reason: reason.length < 3 ? undefined : reason };
}

function put(body: Body, [name = '', ...deeper]: string[], value: unknown): void {
  if (deeper.length === 0) body[name] = value;
  else put((body[name] ??= {}) as Body, deeper, value);
}

/** Makes it, or says all that is wrong with it. */
function makeOrFault(
  actor: Actor,
  {
    kind,
    body,
    known,
    passed,
    reason,
  }: { kind: ListKind; body: Body; known: FieldError[]; passed: FieldError[]; reason: string | undefined },
): FieldError[] | 'made' {
  const { schema } = kind;
  const result = schema.safeParse(body, { reportInput: true });
  const told = new Set(known.map(({ pointer }) => pointer));
  const errors = [
    ...known,
    ...[...(result.success ? [] : result.error.issues.flatMap((issue) => fieldErrors(issue, ''))), ...fenceErrors(schema, body)]
      // What could not be read is not missing.
      .filter(({ pointer }) => !told.has(pointer)),
  ];
  if (!result.success || !errors.every((error) => isPassed(error, passed))) return errors;
  const confirmed = reason === undefined ? null : { pointers: passed.map(({ pointer }) => pointer), reason };
  try {
    kind.make({ ...actor, confirmed }, result.data as never);
    return 'made';
  } catch (error) {
    if (!(error instanceof Problem) || error.status >= 500) throw error;
    const fields = error.extensions['errors'] as FieldError[] | undefined;
    return fields ?? [{ pointer: '', detail: `${error.message}.` }];
  }
}

function isPassed({ pointer, confirmable }: FieldError, passed: readonly FieldError[]): boolean {
  return confirmable === true && passed.some((one) => one.pointer === pointer);
}

function inCell({ pointer, ...error }: FieldError, columns: readonly ListColumn[]): CellError {
  const [column] = columns
    .filter(
      ({ pointer: own }) => pointer === own || pointer.startsWith(`${own}/`) || (pointer !== '' && own.startsWith(`${pointer}/`)),
    )
    .toSorted((a, b) => b.pointer.length - a.pointer.length);
  return { column: column?.header ?? '', ...error };
}

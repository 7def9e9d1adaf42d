import type { z } from 'zod';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { csvOf } from '../../platform/http/csv.ts';
import { invalidFields, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import type { ClientService } from '../clients/index.ts';
import { getSettings } from '../settings/index.ts';
import type {
  MetalLotService,
  MetalProductService,
  SolderLotService,
  SolderProductService,
  SupplierService,
} from '../stock/index.ts';
import { clientList } from './client-list.ts';
import type { ImportListsReply, ImportQuery, ImportReply } from './imports.schema.ts';
import type { ListColumn } from './list-column.ts';
import { CONFIRM_REASON, type ListKind, type ListName, type Written } from './list-kind.ts';
import { metalLotList } from './metal-lot-list.ts';
import { metalProductList } from './metal-product-list.ts';
import { readTable, type Table } from './read-table.ts';
import { takeRow, type RowOutcome } from './row-outcome.ts';
import { solderLotList } from './solder-lot-list.ts';
import { solderProductList } from './solder-product-list.ts';
import { supplierList } from './supplier-list.ts';

export type ImportService = ReturnType<typeof createImportService>;

/** What an export gives as the reason for all that is odd in it: it was asked about when it was written down. */
const WAS_IN_THE_BOOK = 'as it stood in the book it comes from';

/** Lists from tables of text, and as such. */
export function createImportService(
  { db, clock }: Platform,
  services: {
    suppliers: SupplierService;
    clients: ClientService;
    solderProducts: SolderProductService;
    solderLots: SolderLotService;
    metalProducts: MetalProductService;
    metalLots: MetalLotService;
  },
) {
  const kinds: Readonly<Record<ListName, ListKind>> = {
    suppliers: supplierList(services.suppliers),
    clients: clientList(services.clients),
    'solder-products': solderProductList(services.solderProducts),
    'solder-lots': solderLotList(services.solderLots),
    'metal-products': metalProductList(services.metalProducts),
    'metal-lots': metalLotList(services.metalLots),
  };
  return {
    /** The lists there are, with the names of their columns. */
    lists(): z.infer<typeof ImportListsReply> {
      const { currency } = getSettings(db);
      return {
        lists: Object.values(kinds).map((kind) => ({
          list: kind.name,
          key: kind.key,
          columns: columnsOf(kind, currency).map(({ header, needed, says }) => ({ header, needed, says })),
        })),
      };
    },

    /** Says row by row what would become of a table, and, in a real run, does it: all of it, or nothing. */
    take(
      name: ListName,
      { actor, text, run, decimal }: z.infer<typeof ImportQuery> & { actor: Actor; text: string },
    ): z.infer<typeof ImportReply> {
      const kind = kinds[name];
      const table = readTable(text);
      const { currency } = getSettings(db);
      const columns = kind.columns(currency);
      const header = headerOf(table, columnsOf(kind, currency));
      const reader = { kind, columns, header, decimal };
      const rows: RowOutcome[] = [];
      const undone = {};
      try {
        db.transaction((tx) => {
          for (const { row, cells } of table.rows) rows.push(takeRow(tx, actor, { reader, row, cells }));
          if (run === 'dry') throw undone;
          holdRows(rows);
          const made = rows.filter(({ outcome }) => outcome === 'made').map(({ key }) => key);
          const by = writtenBy(actor, clock.now());
          writeJournal(tx, by, { what: 'import', id: newId(by.at), after: { list: name, made, rows: rows.length } });
        });
      } catch (error) {
        if (error !== undone) throw error;
      }
      return replyOf(rows, { list: name, run, delimiter: table.delimiter, decimal });
    },

    /** A list as the table that take() reads. */
    write(name: ListName): string {
      const { currency } = getSettings(db);
      const columns = columnsOf(kinds[name], currency).map(({ header }) => ({
        header,
        value: (row: Record<string, Written>) => cellOf(header === CONFIRM_REASON ? WAS_IN_THE_BOOK : row[header]),
      }));
      return csvOf(columns, kinds[name].written(db, currency));
    },
  };
}

function columnsOf(kind: ListKind, currency: string): ListColumn[] {
  const says = 'Why what looks odd in the row is meant as it stands; without it such a row is refused.';
  return [...kind.columns(currency), { header: CONFIRM_REASON, pointer: '', cell: 'text', needed: false, says }];
}

/** The columns of a table by the names they have here. */
function headerOf({ header }: Table, columns: readonly ListColumn[]): string[] {
  const names = new Map(columns.map((column) => [column.header.toLowerCase(), column.header]));
  const given = header.map((name) => names.get(name.toLowerCase()) ?? name);
  const known = new Set(names.values());
  const errors: FieldError[] = [
    ...given
      .filter((name) => !known.has(name))
      .map((name) => ({
        pointer: `/1/${name}`,
        detail: [`There is no column "${name}" here.`, ...likeOne(name, [...known])].join(' '),
      })),
    ...given
      .filter((name, index) => given.indexOf(name) !== index)
      .map((name) => ({ pointer: `/1/${name}`, detail: `The column "${name}" is there twice.` })),
    ...columns
      .filter(({ needed, header: name }) => needed && !given.includes(name))
      .map(({ header: name, says }) => ({ pointer: `/1/${name}`, detail: `The column "${name}" is needed. ${says}` })),
  ];
  if (errors.length > 0) throw invalidFields(errors);
  return given;
}

/** The column a name may have been meant as: the same up to its unit. */
function likeOne(name: string, known: readonly string[]): string[] {
  const like = known.filter((one) => name !== '' && stem(one) === stem(name));
  return like.length === 0 ? [] : [`Was ${like.map((one) => `"${one}"`).join(' or ')} meant?`];
}

/** @throws {Problem} invalid-fields with every fault of every row */
function holdRows(rows: readonly RowOutcome[]): void {
  const errors = rows.flatMap(({ row, errors: own }) =>
    own.map(({ column, ...error }): FieldError => ({ pointer: column === '' ? `/${row}` : `/${row}/${column}`, ...error })),
  );
  if (errors.length > 0) throw invalidFields(errors);
}

function replyOf(
  rows: RowOutcome[],
  head: Pick<z.infer<typeof ImportReply>, 'list' | 'run' | 'delimiter' | 'decimal'>,
): z.infer<typeof ImportReply> {
  const count = (outcome: RowOutcome['outcome']) => rows.filter((row) => row.outcome === outcome).length;
  const [made, alreadyThere, refused] = [count('made'), count('already_there'), count('refused')];
  const parts = [
    head.run === 'dry' ? `${made} would be made` : `${made} made`,
    alreadyThere === 1 ? '1 already there and left as it is' : `${alreadyThere} already there and left as they are`,
    ...(refused === 0 ? [] : [`${refused} refused: a real run would make nothing`]),
  ];
  return { ...head, made, alreadyThere, refused, says: `${parts.join(', ')}.`, rows };
}

function stem(name: string): string {
  return name.toLowerCase().split(/[_\s(]/)[0]!;
}

function cellOf(value: Written | undefined): string | number | null {
  if (value === undefined || value === null) return null;
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
}

import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { showOwnMetal, tableMetals } from './metal-reply.ts';
import type { MetalChange, NewMetal } from './metals.schema.ts';
import * as store from './metals.store.ts';
import { isInTable, missingValues } from './own-metal-values.ts';

export type MetalService = ReturnType<typeof createMetalService>;

const VALUES = [
  'finenessFraction',
  'solidusC',
  'liquidusC',
  'densityGPerCm3',
  'conductivityWPerMK',
  'specificHeatJPerKgK',
  'emissivityFraction',
] as const;

/** A metal of which nothing is said yet; what must not stay so, its schema asks for. */
const UNSAID: Omit<store.OwnMetalRow, 'id' | 'createdAt'> = {
  name: '',
  kind: 'base',
  likeMetal: null,
  finenessFraction: null,
  solidusC: 0,
  liquidusC: 0,
  densityGPerCm3: 0,
  conductivityWPerMK: null,
  specificHeatJPerKgK: null,
  emissivityFraction: null,
  sources: {},
  active: true,
  version: 1,
};

export function createMetalService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { id, ...metal }: z.infer<typeof NewMetal>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const wanted = withChange({ ...UNSAID, id, createdAt: by.at.toISOString() }, metal);
        holdFields(metalErrors(wanted), actor.confirmed);
        holdIdFree(tx, id);
        const row = store.insertOwnMetal(tx, wanted);
        writeJournal(tx, by, { what: 'metal', id, after: row });
        return showOwnMetal(row);
      });
    },

    list: () => [...tableMetals(), ...store.listOwnMetals(db).map(showOwnMetal)],

    get(id: string) {
      const own = store.findOwnMetal(db, id);
      const found = own ? showOwnMetal(own) : tableMetals().find((metal) => metal.id === id);
      if (!found) throw notFound('metal', id);
      return found;
    },

    /** What is kept now, in the words of a request. */
    stored(id: string) {
      const row = store.findOwnMetal(db, id);
      return row && Object.fromEntries(VALUES.map((name) => [name, { value: row[name] }]));
    },

    /** Copies that designs keep of it stay as they are. */
    change(actor: Actor, id: string, seen: number, change: z.infer<typeof MetalChange>) {
      return db.transaction((tx) => {
        const before = getOwnMetal(tx, id);
        holdToVersion('metal', before.version, seen);
        const wanted = withChange(before, change);
        holdFields(metalErrors(wanted), actor.confirmed);
        const after = store.updateOwnMetal(tx, id, { ...wanted, version: before.version + 1 });
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'metal', id, before, after });
        return showOwnMetal(after);
      });
    },
  };
}

function getOwnMetal(db: Db, id: string): store.OwnMetalRow {
  const row = store.findOwnMetal(db, id);
  if (row) return row;
  if (isInTable(id))
    throw new Problem(
      'condition-not-met',
      `Cannot change ${id}: the table of metals is the same for everyone. Add a metal of your own`,
    );
  throw notFound('metal', id);
}

/** A row with what was sent in place of what was there; null takes a value out, with its source. */
function withChange(row: store.OwnMetalRow, { like, name, kind, ...sent }: z.infer<typeof MetalChange>): store.OwnMetalRow {
  const { active = row.active, ...values } = sent;
  const after = {
    ...row,
    name: name ?? row.name,
    kind: kind ?? row.kind,
    active,
    likeMetal: like === undefined ? row.likeMetal : like,
    sources: { ...row.sources },
  };
  for (const field of VALUES) {
    const said = values[field];
    if (said === undefined) continue;
    Object.assign(after, { [field]: said?.value ?? null });
    if (said) after.sources[field] = said.source;
    else delete after.sources[field];
  }
  return after;
}

/** What fields say together. */
function metalErrors(row: store.OwnMetalRow): FieldError[] {
  const { kind, finenessFraction, solidusC, liquidusC } = row;
  const missing = missingValues(row);
  return [
    ...(liquidusC < solidusC
      ? [
          {
            pointer: '/liquidusC/value',
            detail: `Liquid point ${liquidusC} is below melting start ${solidusC}: swapped?`,
            given: liquidusC,
            unit: '°C',
          },
        ]
      : []),
    ...(kind === 'silver' && !finenessFraction
      ? [{ pointer: '/finenessFraction', detail: 'Say the fineness of a silver: 0.95 for 950.' }]
      : []),
    ...(missing.length > 0
      ? [
          {
            pointer: '/like',
            detail: `The table has no nearest metal to a ${kind} metal: say which it is like (like), or type ${missing.join(', ')}.`,
          },
        ]
      : []),
  ];
}

function holdIdFree(db: Db, id: string): void {
  if (isInTable(id)) throw new Problem('already-used', `Cannot call a metal ${id}: the table has one of that id`);
  if (store.findOwnMetal(db, id)) throw new Problem('already-used', `Cannot call a metal ${id}: there is one of that id`);
}

import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { invalidFields, notFound } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { getBath } from '../baths/index.ts';
import { getCommission } from '../commissions/index.ts';
import { wordingFor, type Wording } from '../documents/index.ts';
import { getPiece, knowsPiece } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { getLot, getProduct } from '../stock/index.ts';
import type { Label, LabelSize } from './label.ts';
import { SHEETS, type LabelRun } from './label-run.ts';
import { bathLines, lotLines, pieceLines } from './label-words.ts';
import type { LabelQuery } from './labels.schema.ts';

export type LabelService = ReturnType<typeof createLabelService>;
export type LabelKind = 'solder-lots' | 'pickle-baths' | 'pieces';

interface Asked {
  actor: Actor;
  id: string;
  query: z.infer<typeof LabelQuery>;
  /** Where the book was reached, such as http://192.168.1.20:3047. */
  origin: string;
}

/** What a label of each kind says; where its square leads; and how large it is where nothing is said. */
const KINDS: Readonly<
  Record<
    LabelKind,
    { path: string; size: LabelSize; words: (db: Db, wording: Wording, actor: Actor, id: string) => Omit<Label, 'address'> }
  >
> = {
  'solder-lots': {
    path: 'lots',
    size: { widthMm: 30, heightMm: 15 },
    words(db, wording, _actor, id) {
      const lot = getLot(db, id);
      return {
        title: wording.say('tag.lot', { number: lot.number }),
        lines: lotLines(wording, lot, getProduct(db, lot.productId)),
      };
    },
  },
  'pickle-baths': {
    path: 'baths',
    size: { widthMm: 60, heightMm: 30 },
    words(db, wording, _actor, id) {
      const bath = getBath(db, id);
      return { title: wording.say('tag.bath', { number: bath.number }), lines: bathLines(wording, bath) };
    },
  },
  pieces: {
    path: 'pieces',
    size: { widthMm: 40, heightMm: 20 },
    words(db, wording, actor, id) {
      if (!knowsPiece(db, actor, id)) throw notFound('piece', id);
      const { number, commissionId } = getPiece(db, id);
      return { title: number, lines: pieceLines(wording, { number, commission: getCommission(db, commissionId) }) };
    },
  },
};

/** Labels for what stands at the bench, in the language of the studio. */
export function createLabelService({ db, clock }: Platform) {
  return {
    /** The labels asked for, and what they are printed on. */
    run(kind: LabelKind, { actor, id, query, origin }: Asked) {
      const settings = getSettings(db);
      const wording = wordingFor(settings.language);
      const { path, size: usual, words } = KINDS[kind];
      const base = settings.bookAddress === '' ? origin : settings.bookAddress;
      const labels = [id, ...(query.also ?? [])].flatMap((one) => {
        const label = { ...words(db, wording, actor, one), address: `${base}/${path}/${one}` };
        return Array.from({ length: query.copies }, () => label);
      });
      const sheet = query.layout === 'sheet' ? SHEETS[settings.papers.size] : undefined;
      const run: LabelRun = {
        labels,
        size: sheet?.label ?? { widthMm: query.widthMm ?? usual.widthMm, heightMm: query.heightMm ?? usual.heightMm },
        used: placesUsed(query.startAt, sheet),
        ...(sheet ? { sheet } : {}),
      };
      return {
        run,
        title: labels[0]!.title,
        author: settings.studioName,
        language: wording.locale,
        writtenAt: clock.now().toISOString(),
      };
    },
  };
}

function placesUsed(startAt: number, sheet: LabelRun['sheet']): number {
  const places = sheet ? sheet.columns * sheet.rows : 1;
  if (startAt > places)
    throw invalidFields([
      {
        pointer: '?startAt',
        detail: sheet ? `The sheet has ${places} labels.` : 'A single label begins at 1; a sheet has more: layout=sheet.',
        given: startAt,
      },
    ]);
  return startAt - 1;
}

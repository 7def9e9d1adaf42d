import type { Design, Part } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import { listMetals } from '../../../shared/materials/metal.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { toTenthMg } from '../stock/index.ts';
import * as store from './scrap.store.ts';

export interface Jar {
  jar: store.ScrapReturnRow['jar'];
  /** Null: nothing is counted into it. */
  expectedFineTenthMg: number | null;
  expectedTenthMg: number | null;
  /** What each piece is expected to have left in it. */
  pieces: { pieceId: string; expectedFineTenthMg: number }[];
}

/** What the books expect in each jar since it was last sent. Clean offcuts, filings, polishing sweep and what solder is in lie apart. */
export function jarsNow(db: Db): Jar[] {
  return [
    filings(db),
    offcuts(db),
    { jar: 'sweep', expectedFineTenthMg: null, expectedTenthMg: null, pieces: [] },
    solderBearing(db),
  ];
}

/** Filings of every piece that was built: the net weight of what was cut for it, the share that is filed away, its fineness. */
function filings(db: Db): Jar {
  const { filingsFraction } = getSettings(db).waste;
  return jarOf(
    'filings',
    store.piecesWaiting(db, 'filings').flatMap(({ id, issuedTenthMg }) => {
      const design = store.designOf(db, id);
      const parts = design && issuedTenthMg !== null ? partsCutHere(design.body) : [];
      if (parts.length === 0) return [];
      const { totalG, fineness } = pieceWeight({ parts });
      return [
        {
          pieceId: id,
          tenthMg: toTenthMg(totalG * filingsFraction),
          fineTenthMg: toTenthMg(totalG * filingsFraction * fineness),
        },
      ];
    }),
  );
}

/** Parts of a joint that was there came with the piece: nobody files them from new. */
function partsCutHere(design: Design): readonly Part[] {
  const { parts, joints } = expandDesign(design).design;
  const here = new Set(joints.filter(({ made }) => made !== undefined).flatMap(endsOf));
  return parts.filter(({ id }) => !here.has(id));
}

/** Metal of scrapped pieces has solder in it, so it never goes back into the melt for sheet. */
function solderBearing(db: Db): Jar {
  return jarOf(
    'solder_bearing',
    store.piecesWaiting(db, 'solder_bearing').map(({ id, metal, returnedTenthMg }) => {
      const tenthMg = returnedTenthMg ?? 0;
      const design = store.designOf(db, id);
      const fineness =
        design && design.body.parts.length > 0
          ? pieceWeight(design.body).fineness
          : (listMetals().find((one) => one.id === metal)?.finenessFraction ?? 0);
      return { pieceId: id, tenthMg, fineTenthMg: Math.round(tenthMg * fineness) };
    }),
  );
}

function offcuts(db: Db): Jar {
  const all = store.offcutsSince(db, store.lastReturnOf(db, 'offcuts')?.createdAt ?? null);
  return {
    jar: 'offcuts',
    expectedFineTenthMg: all.reduce((total, { tenthMg, finenessFraction }) => total + Math.round(tenthMg * finenessFraction), 0),
    expectedTenthMg: all.reduce((total, { tenthMg }) => total + tenthMg, 0),
    pieces: [],
  };
}

function jarOf(jar: Jar['jar'], left: { pieceId: string; tenthMg: number; fineTenthMg: number }[]): Jar {
  return {
    jar,
    expectedFineTenthMg: left.reduce((total, { fineTenthMg }) => total + fineTenthMg, 0),
    expectedTenthMg: left.reduce((total, { tenthMg }) => total + tenthMg, 0),
    pieces: left.map(({ pieceId, fineTenthMg }) => ({ pieceId, expectedFineTenthMg: fineTenthMg })),
  };
}

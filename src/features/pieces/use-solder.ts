import type { Solder } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import { newId } from '../../platform/ids.ts';
import { bookSolderUse, getProduct, toTenthMg } from '../stock/index.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';
import { placedFor } from './heat-reply.ts';
import { insertHistory } from './joints.store.ts';

/** What ran, or did not, in a heat that was alight. */
export interface UsedSolder {
  tenthMg: number;
  /** As a joint keeps it; null after an anneal. */
  solder: Solder | null;
}

/** Books the solder a heat really used, and writes what became of it into the history of every joint it was placed on. */
export function useSolder(
  tx: Db,
  { by, heat, sent }: HeatMoveAsked,
  outcomeOf: (jointId: string) => 'sound' | 'spoilt',
): UsedSolder {
  const { row } = heat;
  if (row.productId === null || row.lotId === null) return { tenthMg: 0, solder: null };
  const tenthMg = sent.usedG === undefined ? row.plannedTenthMg : toTenthMg(sent.usedG);
  const product = getProduct(tx, row.productId);
  if (tenthMg > 0) {
    bookSolderUse(tx, by, {
      lotId: row.lotId,
      pieceId: row.pieceId,
      heatId: row.id,
      tenthMg,
      at: new Date(sent.occurredAt),
    });
  }
  const shares = shareOut(tenthMg, placedFor(tx, heat));
  for (const { joint, tenthMg: share } of shares) {
    insertHistory(tx, {
      id: newId(by.at),
      pieceId: row.pieceId,
      jointId: joint,
      heatId: row.id,
      productId: product.id,
      lotId: row.lotId,
      solidusC: product.solidusC,
      liquidusC: product.liquidusC,
      tenthMg: share,
      outcome: outcomeOf(joint),
      at: sent.occurredAt,
    });
  }
  return { tenthMg, solder: asSolder(product) };
}

/** Splits what was used over the joints as it was placed on them; the last takes what rounding leaves. */
function shareOut(tenthMg: number, placed: readonly { joint: string; tenthMg: number }[]) {
  const total = placed.reduce((sum, each) => sum + each.tenthMg, 0);
  let given = 0;
  return placed.map((each, index) => {
    const share = index === placed.length - 1 ? tenthMg - given : Math.round((tenthMg * each.tenthMg) / Math.max(1, total));
    given += share;
    return { joint: each.joint, tenthMg: share };
  });
}

function asSolder(product: ReturnType<typeof getProduct>): Solder {
  const { code, solidusC, liquidusC, silverFraction, densityGPerCm3 } = product;
  return {
    id: code,
    solidusC,
    liquidusC,
    ...(silverFraction === null ? {} : { silverFraction }),
    cadmiumStanding: 'no',
    densityGPerCm3,
  };
}

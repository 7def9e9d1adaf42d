import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { jointsOnParts } from './joints-on-parts.ts';
import type { JointRow } from './joints.store.ts';
import type { DesignRow } from './pieces.store.ts';

/** Its solder holds cadmium, or may hold it. */
export function mayHoldCadmium({ cadmiumStanding }: JointRow): boolean {
  return cadmiumStanding !== 'no';
}

/** @throws {Problem} cadmium-blocks, for everyone */
export function holdFireFreeOfCadmium(
  db: Db,
  { body, pieceId }: DesignRow,
  { heat, inFire }: { heat: string; inFire: readonly string[] },
) {
  const first = jointsOnParts(db, { single: expandDesign(body).design, pieceId }, inFire).find(mayHoldCadmium);
  if (!first) return;
  throw new Problem(
    'cadmium-blocks',
    `Cannot heat ${heat}: cadmium ${first.cadmiumStanding === 'yes' ? 'is in' : 'may be in'} joint ${first.jointId}. Only a supplier's sheet or a laboratory analysis can clear it; or decline the work, use a cold method, or send it to a shop licensed and equipped for it`,
    { jointId: first.jointId, cadmiumStanding: first.cadmiumStanding },
  );
}

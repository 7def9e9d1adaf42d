import type { Joint } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { jointsOf, type JointRow } from './joints.store.ts';
import type { DesignRow } from './pieces.store.ts';

/** Joints in a fire whose solder holds cadmium, or may hold it. */
export function cadmiumInFire(db: Db, design: DesignRow, inFire: readonly string[]): JointRow[] {
  const parts = new Set(inFire);
  const joints = new Map(expandDesign(design.body).design.joints.map((joint) => [joint.id, joint]));
  return jointsOf(db, design.pieceId).filter(({ jointId, cadmiumStanding }) => {
    const joint = joints.get(jointId);
    return cadmiumStanding !== 'no' && joint !== undefined && placesIn(joint).some((part) => parts.has(part));
  });
}

/** @throws {Problem} cadmium-blocks, for everyone */
export function holdFireFreeOfCadmium(db: Db, design: DesignRow, { heat, inFire }: { heat: string; inFire: readonly string[] }) {
  const [first] = cadmiumInFire(db, design, inFire);
  if (!first) return;
  throw new Problem(
    'cadmium-blocks',
    `Cannot heat ${heat}: cadmium ${first.cadmiumStanding === 'yes' ? 'is in' : 'may be in'} joint ${first.jointId}. Only a supplier's sheet or a laboratory analysis can clear it; or decline the work, use a cold method, or send it to a shop licensed and equipped for it`,
    { jointId: first.jointId, cadmiumStanding: first.cadmiumStanding },
  );
}

/** The parts a joint lies on. */
export function placesIn(joint: Joint): string[] {
  return joint.closes === undefined ? joint.between.map(({ part }) => part) : [joint.closes];
}

import type { Design } from '../../../shared/design/design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import type { Db } from '../../platform/db/client.ts';
import { jointsOf, type JointRow } from './joints.store.ts';

/**
 * Joints of a piece that lie on any of some parts of its design, named one by one.
 *
 * @param single with its copies of parts and joints spelled out
 */
export function jointsOnParts(
  db: Db,
  { single, pieceId }: { single: Design; pieceId: string },
  partIds: readonly string[],
): JointRow[] {
  const parts = new Set(partIds);
  const onParts = single.joints.filter((joint) => endsOf(joint).some((part) => parts.has(part)));
  const ids = new Set(onParts.map(({ id }) => id));
  return jointsOf(db, pieceId).filter(({ jointId }) => ids.has(jointId));
}

import { expandDesign } from '../../../shared/design/expand-design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import type { Db } from '../../platform/db/client.ts';
import { jointsOf, type JointRow } from './joints.store.ts';
import type { DesignRow } from './pieces.store.ts';

/** Joints of a piece that lie on any of some parts of its design, named one by one. */
export function jointsOnParts(db: Db, { body, pieceId }: DesignRow, partIds: readonly string[]): JointRow[] {
  const parts = new Set(partIds);
  const onParts = expandDesign(body).design.joints.filter((joint) => endsOf(joint).some((part) => parts.has(part)));
  const ids = new Set(onParts.map(({ id }) => id));
  return jointsOf(db, pieceId).filter(({ jointId }) => ids.has(jointId));
}

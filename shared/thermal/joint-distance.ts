import type { Design } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { formGrid, USUAL_CELLS, withSeam } from './form-grid.ts';
import { contactPoints, jointPoints } from './joint-points.ts';
import { createMetalPaths } from './metal-paths.ts';
import { partIndex } from './piece-model.ts';

/**
 * Distances between the joints of a finished piece, all its joints made, along the metal: the shortest way from any point of one to
 * any point of the other, 0.2 mm a joint or loose contact crossed.
 *
 * @returns a function of two joint ids; mm, ≥ 0, Infinity if no metal joins them
 * @throws {EngineInputError} for an unknown id or a size that cannot be
 */
export function jointDistances(design: Design): (from: string, to: string) => number {
  const parts = design.parts.map(({ id, form }) => {
    const grid = formGrid(form, USUAL_CELLS);
    const isClosedByJoint = design.joints.some(({ closes }) => closes === id) && (grid.shape === 'line' || form.kind === 'sheet');
    return { id, form, grid: isClosedByJoint ? withSeam(grid, true) : grid };
  });
  const joints = design.joints.map((joint) => jointPoints(joint, parts, USUAL_CELLS, (id) => partIndex(parts, id)));
  const byId = new Map(joints.map((joint) => [joint.id, joint]));
  const paths = createMetalPaths(
    parts.map(({ grid }) => grid),
    joints,
    (design.contacts ?? []).map((contact) => contactPoints(contact, parts, (id) => partIndex(parts, id))),
  );
  const known = new Map<string, ReturnType<typeof paths.from>>();
  const pointsOf = (id: string) => {
    const joint = byId.get(id);
    if (!joint) throw new EngineInputError('joint', id, 'a joint of the design');
    return joint.pairs.flat();
  };
  return (from, to) => {
    if (from === to) return 0;
    const ways = known.get(from) ?? paths.from(pointsOf(from));
    known.set(from, ways);
    return Math.min(...pointsOf(to).map((point) => ways.toMm(point)));
  };
}

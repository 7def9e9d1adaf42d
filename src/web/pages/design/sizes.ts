import type { FormKind } from '../../../../shared/design/design.ts';
import type { JointKindName } from './draft.ts';

/** The sizes that each shape has, in the order in which they are asked for. */
export const FORM_SIZES: Readonly<Record<FormKind, readonly string[]>> = {
  sheet: ['lengthMm', 'widthMm', 'thicknessMm'],
  disc: ['diameterMm', 'thicknessMm'],
  outline: ['areaMm2', 'thicknessMm'],
  washer: ['outsideDiameterMm', 'insideDiameterMm', 'thicknessMm'],
  band: ['insideDiameterMm', 'heightMm', 'thicknessMm'],
  bar: ['lengthMm', 'widthMm', 'thicknessMm'],
  round_wire: ['lengthMm', 'diameterMm'],
  square_wire: ['lengthMm', 'sideMm'],
  half_round_wire: ['lengthMm', 'widthMm', 'heightMm'],
  tube: ['lengthMm', 'outsideDiameterMm', 'insideDiameterMm'],
  wire_ring: ['insideDiameterMm', 'diameterMm'],
  square_ring: ['meanDiameterMm', 'sideMm'],
  cone: ['smallDiameterMm', 'largeDiameterMm', 'slantMm', 'thicknessMm'],
  dome: ['blankDiameterMm', 'thicknessMm'],
  ball: ['diameterMm'],
  weighed: ['massG', 'areaMm2'],
};

export const FORM_KINDS = Object.keys(FORM_SIZES) as FormKind[];

/** Wire is bought by gauge as sheet is. */
const WIRE_GAUGED: ReadonlySet<string> = new Set([
  'round_wire.diameterMm',
  'wire_ring.diameterMm',
  'square_wire.sideMm',
  'square_ring.sideMm',
]);

export function isGauged(kind: FormKind, size: string): boolean {
  return size === 'thicknessMm' || WIRE_GAUGED.has(`${kind}.${size}`);
}

/** The sizes that decide how much solder a joint takes; those that may be left out are told by its parts, or are a fillet. */
export const JOINT_SIZES: Readonly<Record<JointKindName, readonly string[]>> = {
  seam: ['lengthMm', 'thicknessMm'],
  butt: ['widthMm', 'thicknessMm'],
  lap: ['widthMm', 'overlapMm', 'filletMm', 'cornerAngleDeg'],
  tee: ['lengthMm', 'thicknessMm', 'filletMm', 'cornerAngleDeg'],
  loop_base: ['insideDiameterMm', 'thicknessMm', 'filletInsideMm', 'filletOutsideMm', 'cornerAngleDeg'],
  jump_ring: ['diameterMm'],
  post: ['diameterMm', 'filletMm', 'cornerAngleDeg'],
  granule: ['diameterMm', 'neckRadiusMm'],
};

export const JOINT_KINDS = Object.keys(JOINT_SIZES) as JointKindName[];

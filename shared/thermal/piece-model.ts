import type { Design, Joint, Part } from '../design/design.ts';
import { contactEndsOf, endsOf } from '../design/joint-ends.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { getMetal, partSolidusC } from '../materials/metal.ts';
import type { Metal } from '../materials/metal.ts';
import { cellCountOf, formGrid, withSeam } from './form-grid.ts';
import type { FormGrid, GridSize } from './form-grid.ts';
import { contactPoints, jointPoints } from './joint-points.ts';
import type { ContactPoints, GriddedPart, JointPoints } from './joint-points.ts';

/** A part in the fire, cut into cells; its own are firstCell, firstCell + 1, … */
export interface PiecePart extends GriddedPart {
  metal: Metal;
  /** Where it begins to melt: its wrought solidus, or the eutectic of a casting. */
  solidusC: number;
  firstCell: number;
  cellMassG: number;
  surfacesMm2: Float64Array;
  /** Share of its surface that lies on the support, if there is one. */
  contactFraction: number;
}

/** The section that one heat warms through. */
export interface Piece {
  parts: readonly PiecePart[];
  /** Made joints and targets in the fire, in the order of the design. */
  joints: readonly JointPoints[];
  /** Loose contacts in the fire. */
  contacts: readonly ContactPoints[];
  cellCount: number;
}

/** More cells than this, and all are made larger: the time of a heat grows with their number to the power 1.5. */
const MOST_CELLS = 2000;

/** Finds a part of the fire by its id; throws EngineInputError for one that is not in it. */
export function partIndex(parts: readonly { id: string }[], id: string): number {
  const index = parts.findIndex((part) => part.id === id);
  if (index < 0) throw new EngineInputError('part', id, `one of ${parts.map((part) => part.id).join(', ')}`);
  return index;
}

/** Parts that hang together with the targets through them, the made joints and loose contacts. */
function sectionOf(design: Design, present: readonly Joint[], targets: readonly Joint[]): Set<string> {
  const first = targets[0];
  if (!first) throw new EngineInputError('targets', '', 'at least one joint');
  const section = new Set<string>(endsOf(first));
  const holds = [...present.map(endsOf), ...(design.contacts ?? []).map(contactEndsOf)];
  for (let grew = true; grew;) {
    grew = false;
    for (const [a, b] of holds) {
      if (section.has(a) === section.has(b)) continue;
      section.add(a).add(b);
      grew = true;
    }
  }
  for (const joint of targets) {
    if (!section.has(endsOf(joint)[0]))
      throw new EngineInputError('targets', joint.id, `joined to ${first.id}: a heat is one section`);
  }
  for (const id of section) partIndex(design.parts, id);
  return section;
}

function gridOf(part: Part, seams: readonly Joint[], present: ReadonlySet<string>, size: GridSize): FormGrid {
  const grid = formGrid(part.form, size);
  const canClose = grid.shape === 'line' || grid.bentDiameterMm !== null || part.form.kind === 'sheet';
  return seams.length > 0 && canClose
    ? withSeam(
        grid,
        seams.every((joint) => present.has(joint.id)),
      )
    : grid;
}

function surfaces(grid: FormGrid): Float64Array {
  const { nx, ny, lengthMm, heightMm, thicknessMm, closed } = grid;
  const dx = lengthMm / nx;
  const dy = heightMm / ny;
  return Float64Array.from({ length: cellCountOf(grid) }, (_, cell) => {
    if (grid.shape === 'lump') return grid.areaMm2;
    const x = cell % nx;
    const y = (cell - x) / nx;
    const ends = closed ? 0 : Number(x === 0) + Number(x === nx - 1);
    if (grid.shape === 'line') return grid.perimeterMm * dx + ends * grid.sectionMm2;
    // The inside of a bent plate sees itself and counts half.
    const faces = grid.bentDiameterMm === null ? 2 : 1.5;
    return faces * dx * dy + thicknessMm * (ends * dy + (Number(y === 0) + Number(y === ny - 1)) * dx);
  });
}

function cellMass(grid: FormGrid, metal: Metal): number {
  const densityGPerMm3 = metal.densityGPerCm3 / 1000;
  if (grid.shape === 'lump') return grid.massG ?? (densityGPerMm3 * Math.PI * grid.lossDiameterMm ** 3) / 6;
  const areaMm2 = grid.shape === 'line' ? grid.sectionMm2 : grid.thicknessMm * grid.heightMm;
  return (densityGPerMm3 * areaMm2 * grid.lengthMm) / cellCountOf(grid);
}

/**
 * Cuts the section that hangs together with the targets into cells, made joints and targets in place.
 *
 * A ring or band whose seam is neither made nor a target is open; one without a seam in the design is whole.
 *
 * @param size longest cells wanted; they grow where a piece would have more than 2000
 * @throws {EngineInputError} for an unknown part or joint, targets that do not hang together, or a size that cannot be
 */
export function buildPiece(
  design: Design,
  { targets, made }: { targets: readonly string[]; made: readonly string[] },
  size: GridSize,
): Piece {
  const byId = new Map(design.joints.map((joint) => [joint.id, joint]));
  for (const id of [...targets, ...made]) if (!byId.has(id)) throw new EngineInputError('joint', id, 'a joint of the design');
  const presentIds = new Set([...made, ...targets]);
  const present = design.joints.filter((joint) => presentIds.has(joint.id));
  const section = sectionOf(
    design,
    present,
    targets.map((id) => byId.get(id)!),
  );
  const inFire = design.parts.filter((part) => section.has(part.id));
  const seams = (id: string) => design.joints.filter((joint) => joint.closes === id);
  const cut = (factor: number) =>
    inFire.map((part) =>
      gridOf(part, seams(part.id), presentIds, { barMm: size.barMm * factor, plateMm: size.plateMm * factor }),
    );
  let factor = 1;
  let grids = cut(factor);
  const countAll = () => grids.reduce((count, grid) => count + cellCountOf(grid), 0);
  // Lumps and least counts do not shrink: 40 rounds of 1.25 take any plate to its 4 × 3.
  for (let round = 0; countAll() > MOST_CELLS && round < 40; round++) {
    factor *= 1.25;
    grids = cut(factor);
  }

  let firstCell = 0;
  const parts = inFire.map((part, index): PiecePart => {
    const grid = grids[index]!;
    const metal = getMetal(part.metal);
    const contactFraction = part.supportContactFraction ?? grid.contactFraction;
    if (!(contactFraction >= 0 && contactFraction <= 1))
      throw new EngineInputError('supportContactFraction', contactFraction, '0 to 1');
    const built = {
      id: part.id,
      form: part.form,
      grid,
      metal,
      solidusC: partSolidusC(part),
      firstCell,
      cellMassG: cellMass(grid, metal),
      surfacesMm2: surfaces(grid),
      contactFraction,
    };
    firstCell += cellCountOf(grid);
    return built;
  });
  const used = { barMm: size.barMm * factor, plateMm: size.plateMm * factor };
  const joints = present
    .filter((joint) => section.has(endsOf(joint)[0]))
    .map((joint) => jointPoints(joint, parts, used, (id) => partIndex(parts, id)));
  const contacts = (design.contacts ?? [])
    .filter((contact) => section.has(contactEndsOf(contact)[0]))
    .map((contact) => contactPoints(contact, parts, (id) => partIndex(parts, id)));
  return { parts, joints, contacts, cellCount: firstCell };
}

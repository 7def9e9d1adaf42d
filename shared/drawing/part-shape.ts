import type { Form } from '../design/design.ts';
import { ORIGIN, rectangle, type Point, type Stroke } from './geometry.ts';

/** Forms that lie, stand and are joined alike. */
export type Family = 'plate' | 'band' | 'ring' | 'rod' | 'lump';
export type Plate = Extract<Form, { kind: 'sheet' | 'disc' | 'outline' | 'washer' | 'dome' }>;
export type Rod = Extract<Form, { kind: 'bar' | 'round_wire' | 'square_wire' | 'half_round_wire' | 'tube' | 'cone' }>;
export type Band = Extract<Form, { kind: 'band' }>;
export type Ring = Extract<Form, { kind: 'wire_ring' | 'square_ring' }>;
export type Lump = Extract<Form, { kind: 'ball' | 'weighed' }>;

/** Above: as it lies on the bench, a rod along, a ring round. Side: from the edge of a plate or the side of a band. End: along a rod. */
export type View = 'above' | 'side' | 'end';

const FAMILIES: Readonly<Record<Form['kind'], Family>> = {
  sheet: 'plate',
  disc: 'plate',
  outline: 'plate',
  washer: 'plate',
  dome: 'plate',
  band: 'band',
  wire_ring: 'ring',
  square_ring: 'ring',
  bar: 'rod',
  round_wire: 'rod',
  square_wire: 'rod',
  half_round_wire: 'rod',
  tube: 'rod',
  cone: 'rod',
  ball: 'lump',
  weighed: 'lump',
};

export function familyOf({ kind }: Form): Family {
  return FAMILIES[kind];
}

export function isPlate(form: Form): form is Plate {
  return familyOf(form) === 'plate';
}

export function isRod(form: Form): form is Rod {
  return familyOf(form) === 'rod';
}

/** Round, and seen as such from above. */
export function isRound(form: Form): form is Ring | Band {
  return familyOf(form) === 'ring' || familyOf(form) === 'band';
}

/** Length, width and thickness of a plate; an outline, whose shape nobody gave, is the square of its area. */
export function plateSize(form: Plate): { lengthMm: number; widthMm: number; thicknessMm: number; round: boolean } {
  switch (form.kind) {
    case 'sheet':
      return { ...form, round: false };
    case 'disc':
      return circular(form.diameterMm, form.thicknessMm);
    case 'washer':
      return circular(form.outsideDiameterMm, form.thicknessMm);
    case 'dome':
      return circular(form.blankDiameterMm, form.thicknessMm);
    case 'outline':
      return { ...square(form.areaMm2), thicknessMm: form.thicknessMm, round: false };
  }
}

/** Length of a rod and its width at either end; a cone begins at its small end. */
export function rodSize(form: Rod): { lengthMm: number; startMm: number; endMm: number } {
  switch (form.kind) {
    case 'bar':
      return straight(form.lengthMm, form.widthMm);
    case 'round_wire':
      return straight(form.lengthMm, form.diameterMm);
    case 'square_wire':
      return straight(form.lengthMm, form.sideMm);
    case 'half_round_wire':
      return straight(form.lengthMm, form.widthMm);
    case 'tube':
      return straight(form.lengthMm, form.outsideDiameterMm);
    case 'cone': {
      const overhangMm = (form.largeDiameterMm - form.smallDiameterMm) / 2;
      // A wall no longer than the cone is wide leaves a flat ring; it is drawn as high as its wall is thick.
      const heightMm = Math.max(Math.sqrt(Math.max(0, form.slantMm ** 2 - overhangMm ** 2)), form.thicknessMm);
      return { lengthMm: heightMm, startMm: form.smallDiameterMm, endMm: form.largeDiameterMm };
    }
  }
}

/** Diameters of a ring or band, seen from above. */
export function ringSize(form: Ring | Band): { insideMm: number; outsideMm: number } {
  switch (form.kind) {
    case 'wire_ring':
      return { insideMm: form.insideDiameterMm, outsideMm: form.insideDiameterMm + 2 * form.diameterMm };
    case 'square_ring':
      return { insideMm: form.meanDiameterMm - form.sideMm, outsideMm: form.meanDiameterMm + form.sideMm };
    case 'band':
      return { insideMm: form.insideDiameterMm, outsideMm: form.insideDiameterMm + 2 * form.thicknessMm };
  }
}

/** How wide a ball or a weighed part is drawn; of what was only weighed, the square of one face is drawn. */
export function lumpSizeMm(form: Lump): number {
  if (form.kind === 'ball') return form.diameterMm;
  return Math.max(square(form.areaMm2 / 2).lengthMm, LEAST_MM);
}

const LEAST_MM = 1;

/** The lines of a part about its own middle, to scale. */
export function strokesOf(form: Form, view: View): Stroke[] {
  if (isPlate(form)) return view === 'side' ? edgeOf(form) : faceOf(form);
  if (isRod(form)) return view === 'end' ? sectionOf(form) : alongOf(form);
  if (form.kind === 'band' && view === 'side') return [outline(ringSize(form).outsideMm, form.heightMm)];
  if (isRound(form)) return circles(form);
  return form.kind === 'ball' ? [circle(form.diameterMm)] : [{ ...outline(lumpSizeMm(form), lumpSizeMm(form)), broken: true }];
}

function faceOf(form: Plate): Stroke[] {
  const { lengthMm, widthMm, round } = plateSize(form);
  if (!round) return [{ ...outline(lengthMm, widthMm), broken: form.kind === 'outline' }];
  if (form.kind === 'washer') return [circle(lengthMm), circle(form.insideDiameterMm)];
  // The blank is known; how far it was domed is not.
  return [{ ...circle(lengthMm), broken: form.kind === 'dome' }];
}

function edgeOf(form: Plate): Stroke[] {
  const { lengthMm, thicknessMm } = plateSize(form);
  return [{ ...outline(lengthMm, thicknessMm), broken: form.kind === 'outline' || form.kind === 'dome' }];
}

function circles(form: Ring | Band): Stroke[] {
  const { insideMm, outsideMm } = ringSize(form);
  return [circle(outsideMm), circle(insideMm)];
}

function alongOf(form: Rod): Stroke[] {
  const { lengthMm, startMm, endMm } = rodSize(form);
  const [x, start, end] = [lengthMm / 2, startMm / 2, endMm / 2];
  const corners: Point[] = [
    { xMm: -x, yMm: -start },
    { xMm: x, yMm: -end },
    { xMm: x, yMm: end },
    { xMm: -x, yMm: start },
  ];
  const body: Stroke = { kind: 'line', points: corners, closed: true };
  if (form.kind !== 'tube') return [body];
  const bore = [-1, 1].map((side): Stroke => {
    const yMm = (side * form.insideDiameterMm) / 2;
    return {
      kind: 'line',
      closed: false,
      broken: true,
      points: [
        { xMm: -x, yMm },
        { xMm: x, yMm },
      ],
    };
  });
  return [body, ...bore];
}

function sectionOf(form: Rod): Stroke[] {
  switch (form.kind) {
    case 'bar':
      return [outline(form.widthMm, form.thicknessMm)];
    case 'square_wire':
      return [outline(form.sideMm, form.sideMm)];
    case 'half_round_wire':
      return [outline(form.widthMm, form.heightMm)];
    case 'tube':
      return [circle(form.outsideDiameterMm), circle(form.insideDiameterMm)];
    case 'round_wire':
      return [circle(form.diameterMm)];
    case 'cone':
      return [form.largeDiameterMm, form.smallDiameterMm].filter((diameterMm) => diameterMm > 0).map(circle);
  }
}

function circle(diameterMm: number): Stroke {
  return { kind: 'circle', centre: ORIGIN, radiusMm: diameterMm / 2 };
}

function outline(widthMm: number, heightMm: number): Stroke {
  return { kind: 'line', points: rectangle(widthMm, heightMm), closed: true };
}

function circular(diameterMm: number, thicknessMm: number) {
  return { lengthMm: diameterMm, widthMm: diameterMm, thicknessMm, round: true };
}

function square(areaMm2: number) {
  return { lengthMm: Math.sqrt(areaMm2), widthMm: Math.sqrt(areaMm2) };
}

function straight(lengthMm: number, widthMm: number) {
  return { lengthMm, startMm: widthMm, endMm: widthMm };
}

/** Volumes, surfaces and gaps by elementary solids, in plain doubles: the second reading of what the engine computes exactly. */

import type { SolderedJoint } from '../../shared/costing/solder-use.ts';
import type { Form } from '../../shared/design/design.ts';

const { PI, sqrt, acos, tan } = Math;

export function volumeAndArea(form: Form): { volumeMm3?: number; massG?: number; areaMm2: number } {
  switch (form.kind) {
    case 'sheet':
      return thin(form.lengthMm * form.widthMm, form.thicknessMm);
    case 'outline':
      return thin(form.areaMm2, form.thicknessMm);
    case 'dome':
      return thin((PI / 4) * form.blankDiameterMm ** 2, form.thicknessMm);
    case 'band':
      return thin(PI * (form.insideDiameterMm + form.thicknessMm) * form.heightMm, form.thicknessMm);
    case 'cone':
      return thin((PI / 2) * (form.smallDiameterMm + form.largeDiameterMm) * form.slantMm, form.thicknessMm);
    case 'disc':
      return {
        volumeMm3: (PI / 4) * form.diameterMm ** 2 * form.thicknessMm,
        areaMm2: (PI / 2) * form.diameterMm ** 2 + PI * form.diameterMm * form.thicknessMm,
      };
    case 'washer': {
      const { outsideDiameterMm: D, insideDiameterMm: d, thicknessMm: t } = form;
      return { volumeMm3: (PI / 4) * (D ** 2 - d ** 2) * t, areaMm2: (PI / 2) * (D ** 2 - d ** 2) + PI * (D + d) * t };
    }
    case 'bar':
      return {
        volumeMm3: form.lengthMm * form.widthMm * form.thicknessMm,
        areaMm2: 2 * form.lengthMm * (form.widthMm + form.thicknessMm),
      };
    case 'round_wire':
      return { volumeMm3: (PI / 4) * form.diameterMm ** 2 * form.lengthMm, areaMm2: PI * form.diameterMm * form.lengthMm };
    case 'square_wire':
      return { volumeMm3: form.sideMm ** 2 * form.lengthMm, areaMm2: 4 * form.sideMm * form.lengthMm };
    case 'half_round_wire': {
      const { widthMm: w, heightMm: h, lengthMm: L } = form;
      const R = (w ** 2 / 4 + h ** 2) / (2 * h);
      const arc = acos(1 - h / R);
      return {
        volumeMm3: (R ** 2 * arc - (R - h) * sqrt(2 * R * h - h ** 2)) * L,
        areaMm2: (w + 2 * R * arc) * L,
      };
    }
    case 'tube': {
      const { outsideDiameterMm: D, insideDiameterMm: d, lengthMm: L } = form;
      return { volumeMm3: (PI / 4) * (D ** 2 - d ** 2) * L, areaMm2: PI * (D + d) * L };
    }
    case 'wire_ring': {
      const { diameterMm: d, insideDiameterMm: inside } = form;
      return { volumeMm3: (PI / 4) * d ** 2 * PI * (inside + d), areaMm2: PI * d * PI * (inside + d) };
    }
    case 'square_ring':
      return {
        volumeMm3: PI * form.meanDiameterMm * form.sideMm ** 2,
        areaMm2: 4 * form.sideMm * PI * form.meanDiameterMm,
      };
    case 'ball':
      return { volumeMm3: (PI / 6) * form.diameterMm ** 3, areaMm2: PI * form.diameterMm ** 2 };
    case 'weighed':
      return { massG: form.massG, areaMm2: form.areaMm2 };
  }
}

function thin(faceMm2: number, thicknessMm: number) {
  return { volumeMm3: faceMm2 * thicknessMm, areaMm2: 2 * faceMm2 };
}

/** Clear space and fillets of one joint, mm³. */
export function gapAndFillet(joint: SolderedJoint): number {
  const g = joint.gapMm;
  const angle = (('cornerAngleDeg' in joint ? (joint.cornerAngleDeg ?? 90) : 90) * PI) / 180;
  const corner = (r = 0) => r ** 2 * (1 / tan(angle / 2) - (PI - angle) / 2);
  switch (joint.kind) {
    case 'seam':
      return joint.lengthMm * joint.thicknessMm * g;
    case 'butt':
      return joint.widthMm * joint.thicknessMm * g;
    case 'lap':
      return joint.widthMm * joint.overlapMm * g + corner(joint.filletMm) * 2 * joint.widthMm;
    case 'tee':
      return joint.lengthMm * joint.thicknessMm * g + corner(joint.filletMm) * 2 * joint.lengthMm;
    case 'loop_base': {
      const [d, t] = [joint.insideDiameterMm!, joint.thicknessMm!];
      return PI * (d + t) * t * g + corner(joint.filletInsideMm) * PI * d + corner(joint.filletOutsideMm) * PI * (d + 2 * t);
    }
    case 'jump_ring':
      return (PI / 4) * joint.diameterMm! ** 2 * g;
    case 'post': {
      const { diameterMm: d, filletMm: r = 0, exactRing } = joint;
      return (PI / 4) * d ** 2 * g + corner(r) * PI * d * (exactRing ? 1 + (0.4467 * r) / d : 1);
    }
    case 'granule': {
      const [R, a] = [joint.diameterMm / 2, joint.neckRadiusMm];
      return PI * a ** 2 * R - ((2 * PI) / 3) * (R ** 3 - (R ** 2 - a ** 2) ** 1.5);
    }
  }
}

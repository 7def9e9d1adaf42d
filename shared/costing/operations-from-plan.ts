import type { Design, Form, Joint, Part } from '../design/design.ts';
import { endsOf } from '../design/joint-ends.ts';
import type { Plan } from '../design/plan.ts';
import { formSize } from '../forms/form-size.ts';
import { countOf } from '../forms/piece-weight.ts';
import type { LabourLine } from './estimate-request.ts';
import { USUAL_MINUTES, type Operation } from './usual-minutes.ts';

/**
 * The bench work that a design and its plan call for, with the usual minutes of each operation: making the parts, fitting
 * and cleaning up the joints, the heats with their protections and pickle, filing, polishing, packing.
 *
 * Parts and joints of a piece that comes already made take no making and no fitting. Lap joints and loops on a base are
 * fitted at the high end. Setting stones, hinges and the like are nobody's part or joint: they are added by hand.
 *
 * @returns a line an operation, minutes to a tenth, in the order of the work; for the role bench
 * @throws {EngineInputError} for a count that is no whole number, or a wire, bar or tube that is no solid
 * @source common practice of the trade, as in the table of usual minutes
 */
export function operationsFromPlan({ design, plan }: { design: Design; plan: Plan }): LabourLine[] {
  const made = new Set(design.joints.filter((joint) => joint.made !== undefined).flatMap(endsOf));
  const newParts = design.parts.filter(({ id }) => !made.has(id));
  const newJoints = design.joints.filter((joint) => joint.made === undefined);
  const isLarge = isHollowWare(design);
  const soldered = plan.heats.filter(({ purpose }) => purpose !== 'anneal').length;

  const work: [Operation, number][] = [
    ...newParts.flatMap((part) =>
      makingOf(part).map(([operation, times]): [Operation, number] => [operation, times * countOf(part)]),
    ),
    ...newJoints.map((joint): [Operation, number] => [fittingOf(joint), fittingTimes(joint) * countOf(joint)]),
    ['anneal', plan.heats.length - soldered],
    [isLarge ? 'heat_hollow_ware' : 'heat', soldered],
    ['protect', plan.heats.reduce((count, { protections = [] }) => count + protections.length, 0)],
    ['pickle', plan.heats.length],
    ['clean_up', newJoints.reduce((count, joint) => count + countOf(joint), 0)],
    [isLarge ? 'file_beaker' : isFingerRing(design) ? 'file_ring' : 'file_pendant', 1],
    [isLarge ? 'polish_beaker' : 'polish_pendant', 1],
    ['pack', 1],
  ];
  const minutes = new Map<string, number>();
  for (const [name, times] of work) {
    const { operation, usual } = USUAL_MINUTES[name];
    minutes.set(operation, (minutes.get(operation) ?? 0) + usual * times);
  }
  return [...minutes]
    .map(([operation, total]) => ({ operation, role: 'bench', minutes: Math.round(total * 10) / 10 }))
    .filter((line) => line.minutes > 0);
}

/** How a part of a form comes to be; sawing in units of 100 mm. */
function makingOf({ id, form }: Part): [Operation, number][] {
  switch (form.kind) {
    case 'sheet':
      return [['saw', (2 * (form.lengthMm + form.widthMm)) / 100]];
    case 'outline':
      // The outline is not known: as long as that of a square of its area.
      return [['saw', (4 * Math.sqrt(form.areaMm2)) / 100]];
    case 'disc':
      return [['saw', (Math.PI * form.diameterMm) / 100]];
    case 'washer':
      return [
        ['saw', (Math.PI * form.outsideDiameterMm) / 100],
        ['pierce', 1],
      ];
    case 'dome':
      return [['dome', 1]];
    case 'band':
    case 'cone':
      return [[isWall(form) ? 'roll_wall' : 'form_band', 1]];
    case 'square_ring':
      return [['form_band', 1]];
    case 'bar':
    case 'round_wire':
    case 'square_wire':
    case 'half_round_wire':
    case 'tube':
      // One cut round the cross-section: what a length of stock has as surface, a millimetre of it.
      return [['saw', formSize(form, id).areaMm2.div(form.lengthMm).toNumber() / 100]];
    // A ring of wire is made when it is closed, a grain when it is placed; what was weighed is there already.
    case 'wire_ring':
    case 'ball':
    case 'weighed':
      return [];
    default:
      return form satisfies never;
  }
}

function fittingOf({ kind }: Joint): Operation {
  if (kind === 'jump_ring') return 'close_ring';
  return kind === 'granule' ? 'grain' : 'fit';
}

/** Fits that one fit counts for: a lap or a loop on its base is as long as the longest. */
function fittingTimes({ kind }: Joint): number {
  return kind === 'lap' || kind === 'loop_base' ? USUAL_MINUTES.fit.high / USUAL_MINUTES.fit.usual : 1;
}

/** Whether a piece is worked as hollow ware, by its having the wall of a beaker or bowl: its heats, filing and polishing take longer. */
export function isHollowWare({ parts }: Pick<Design, 'parts'>): boolean {
  return parts.some(({ form }) => isWall(form));
}

/** Too wide and too high for a finger: the wall of a beaker or bowl. */
function isWall(form: Form): boolean {
  if (form.kind === 'band') return form.insideDiameterMm >= 30 && form.heightMm >= 20;
  return form.kind === 'cone' && form.largeDiameterMm >= 30 && form.slantMm >= 20;
}

/** A band or ring that goes on a finger: 41 to 76 mm round inside. */
function isFingerRing({ parts }: Design): boolean {
  return parts.some(({ form }) => {
    const insideMm =
      form.kind === 'band' || form.kind === 'wire_ring'
        ? form.insideDiameterMm
        : form.kind === 'square_ring'
          ? form.meanDiameterMm - form.sideMm
          : 0;
    return insideMm * Math.PI >= 41 && insideMm * Math.PI <= 76;
  });
}

import { z } from 'zod';
import type { Contact, Design, Form, Joint } from '../../../shared/design/design.ts';
import { fenced } from '../../platform/http/fences.ts';

const id = z.string().regex(/^[\w.#-]{1,60}$/, 'An id has 1 to 60 letters, digits, dots, dashes or underscores.');
const name = z.string().trim().min(1).max(60);
const lengthMm = fenced('part', 'lengthMm', z.number());
const thicknessMm = fenced('part', 'thicknessMm', z.number());
/** A position on a part: from its edge or centre, so it may be 0 or negative. */
const positionMm = z.number().min(-1000).max(1000);
const temperatureC = fenced('part', 'solidusC', z.number());
const fraction = z.number().min(0).max(1);

export const FormSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('sheet'), lengthMm, widthMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('disc'), diameterMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('outline'), areaMm2: z.number().positive().max(1_000_000), thicknessMm }),
    z.strictObject({ kind: z.literal('washer'), outsideDiameterMm: lengthMm, insideDiameterMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('band'), insideDiameterMm: lengthMm, heightMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('bar'), lengthMm, widthMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('round_wire'), lengthMm, diameterMm: thicknessMm }),
    z.strictObject({ kind: z.literal('square_wire'), lengthMm, sideMm: thicknessMm }),
    z.strictObject({ kind: z.literal('half_round_wire'), lengthMm, widthMm: lengthMm, heightMm: thicknessMm }),
    z.strictObject({ kind: z.literal('tube'), lengthMm, outsideDiameterMm: lengthMm, insideDiameterMm: lengthMm }),
    z.strictObject({ kind: z.literal('wire_ring'), insideDiameterMm: lengthMm, diameterMm: thicknessMm }),
    z.strictObject({ kind: z.literal('square_ring'), meanDiameterMm: lengthMm, sideMm: thicknessMm }),
    z.strictObject({
      kind: z.literal('cone'),
      smallDiameterMm: lengthMm,
      largeDiameterMm: lengthMm,
      slantMm: lengthMm,
      thicknessMm,
    }),
    z.strictObject({ kind: z.literal('dome'), blankDiameterMm: lengthMm, thicknessMm }),
    z.strictObject({ kind: z.literal('ball'), diameterMm: lengthMm }),
    z.strictObject({
      kind: z.literal('weighed'),
      massG: z.number().positive().max(10_000),
      areaMm2: z.number().positive().max(1_000_000),
    }),
  ])
  .register(z.globalRegistry, { id: 'Form' }) satisfies z.ZodType<Form>;

const OwnMetalSchema = z.strictObject({
  code: z
    .string()
    .min(1)
    .max(60)
    .exactOptional()
    .describe('Id of the metal of the studio (GET /metals) that this is a copy of. The code alone takes the metal as it is now.'),
  name: name.exactOptional(),
  kind: z
    .enum(['silver', 'gold', 'platinum', 'base'])
    .exactOptional()
    .describe('Counts as unknown, which asks for a caution, when absent.'),
  densityGPerCm3: fenced('part', 'densityGPerCm3', z.number()),
  finenessFraction: fraction.exactOptional(),
  solidusC: temperatureC,
  liquidusC: fenced('alloy', 'liquidusC', z.number()),
  conductivityWPerMK: z.number().positive().max(500),
  specificHeatJPerGK: z.number().positive().max(2),
  emissivityFraction: fraction.exactOptional(),
});

export const PartSchema = z
  .strictObject({
    id,
    name: name.exactOptional(),
    metal: z
      .union([z.string().min(1).max(60), OwnMetalSchema])
      .describe("Id of a metal of GET /metals, the table's or the studio's own, or a metal described here."),
    form: FormSchema,
    count: fenced('part', 'count', z.number().int()).exactOptional().describe('Identical parts; 1 when absent.'),
    cast: z.boolean().exactOptional().describe('Cast metal of a standard alloy begins to melt at its eutectic.'),
    maxC: fenced('part', 'maxC', z.number())
      .exactOptional()
      .describe('The hottest it may get, where that is less than its metal stands: stones, inlay, enamel.'),
    hollow: z
      .strictObject({ ventMm: z.number().min(0).max(10).describe('Width of the open vent; 0: none.') })
      .exactOptional()
      .describe('A closed form.'),
    supportContactFraction: fraction
      .exactOptional()
      .describe('Share of one face that lies on the support; by its form when absent.'),
  })
  .register(z.globalRegistry, { id: 'Part' });

export const PlaceSchema = z
  .strictObject({
    part: id,
    xMm: positionMm
      .exactOptional()
      .describe('Sheet: along its length from a corner. Disc, washer, outline, dome: from the centre.'),
    yMm: positionMm
      .exactOptional()
      .describe('Sheet: along its width from the same corner. Disc, washer, outline, dome: from the centre.'),
    alongMm: positionMm
      .exactOptional()
      .describe('Wire, bar, tube, cone: from an end. Band: round the mean circle from its seam. Ring: round it.'),
    acrossMm: positionMm.exactOptional().describe('Band: up its height.'),
  })
  .register(z.globalRegistry, { id: 'Place' });

const cadmiumStanding = z.enum(['no', 'yes', 'unknown']);

const solderFields = {
  id: z.string().min(1).max(60),
  solidusC: fenced('solder_product', 'solidusC', z.number()),
  liquidusC: fenced('solder_product', 'liquidusC', z.number()),
  silverFraction: fraction.exactOptional(),
  availableG: z.number().min(0).max(10_000).exactOptional(),
  cadmiumStanding: cadmiumStanding.exactOptional(),
  densityGPerCm3: fenced('solder_product', 'densityGPerCm3', z.number()).exactOptional(),
  smallestPieceG: z.number().positive().max(0.1).exactOptional(),
  metalFraction: z.number().min(0.3).max(1).exactOptional().describe('Of paste, from its data sheet; of anything else 1.'),
};

export const SolderSchema = z.strictObject(solderFields).register(z.globalRegistry, { id: 'Solder' });

const joint = {
  id,
  name: name.exactOptional(),
  gapMm: fenced('joint', 'gapMm', z.number()).default(0.05).describe('Clear space that the solder fills.'),
  solder: z.string().min(1).max(60).exactOptional().describe('For pricing: the id of its solder. A plan says its own.'),
  trimFraction: fenced('joint', 'trimFraction', z.number())
    .exactOptional()
    .describe('Solder placed over what the joint holds; 0.3 when absent.'),
  pieces: z.number().int().min(1).max(1000).exactOptional().describe('Chips of solder placed.'),
  count: fenced('joint', 'count', z.number().int()).exactOptional().describe('Identical joints; 1 when absent.'),
  load: z.enum(['none', 'own_weight', 'sprung', 'tied']).exactOptional().describe('What pulls on it while it is hot.'),
  made: z
    .strictObject({
      solder: z.union([z.literal('unknown'), SolderSchema]),
      assumedSolidusC: temperatureC.exactOptional(),
      assumedLiquidusC: temperatureC.exactOptional(),
      cadmiumStanding: cadmiumStanding.exactOptional(),
    })
    .exactOptional()
    .describe('For a joint that exists: the solder in it.'),
};
/** Lengths along a joint; a thickness of a joint is the thickness of the thinner part, so the part's fence would ask twice. */
const alongJointMm = fenced('joint', 'lengthMm', z.number());
const widthMm = fenced('joint', 'widthMm', z.number());
const overlapMm = fenced('joint', 'overlapMm', z.number());
const acrossJointMm = z.number().positive().max(50);
const filletMm = fenced('joint', 'filletMm', z.number()).exactOptional();
const cornerAngleDeg = fenced('joint', 'cornerAngleDeg', z.number()).exactOptional();

/** The sizes that decide the solder, without the places: all that pricing needs. */
const sizes = {
  seam: { kind: z.literal('seam'), lengthMm: alongJointMm, thicknessMm: acrossJointMm },
  butt: { kind: z.literal('butt'), widthMm, thicknessMm: acrossJointMm },
  lap: { kind: z.literal('lap'), widthMm, overlapMm, filletMm, cornerAngleDeg },
  tee: { kind: z.literal('tee'), lengthMm: alongJointMm, thicknessMm: acrossJointMm, filletMm, cornerAngleDeg },
  loop_base: {
    kind: z.literal('loop_base'),
    insideDiameterMm: alongJointMm.exactOptional(),
    thicknessMm: acrossJointMm.exactOptional(),
    filletInsideMm: filletMm,
    filletOutsideMm: filletMm,
    cornerAngleDeg,
  },
  jump_ring: { kind: z.literal('jump_ring'), diameterMm: alongJointMm.exactOptional() },
  post: {
    kind: z.literal('post'),
    diameterMm: alongJointMm,
    filletMm,
    cornerAngleDeg,
    exactRing: z
      .boolean()
      .exactOptional()
      .describe('The fillet as a ring, 1 + 0.4467 r/d of what it is by its inner edge; false when absent. At 90° alone.'),
  },
  granule: { kind: z.literal('granule'), diameterMm: alongJointMm, neckRadiusMm: acrossJointMm },
} as const;

const places = {
  closes: id.exactOptional().describe('The part that it closes on itself. Either this or "between".'),
  between: z.tuple([PlaceSchema, PlaceSchema]).exactOptional().describe('The two places that it joins.'),
};

const kinds = <Extra extends z.ZodRawShape>(extra: Extra) =>
  z.discriminatedUnion('kind', [
    z.strictObject({ ...sizes.seam, ...joint, ...extra }),
    z.strictObject({ ...sizes.butt, ...joint, ...extra }),
    z.strictObject({ ...sizes.lap, ...joint, ...extra }),
    z.strictObject({ ...sizes.tee, ...joint, ...extra }),
    z.strictObject({ ...sizes.loop_base, ...joint, ...extra }),
    z.strictObject({ ...sizes.jump_ring, ...joint, ...extra }),
    z.strictObject({ ...sizes.post, ...joint, ...extra }),
    z.strictObject({ ...sizes.granule, ...joint, ...extra }),
  ]);

/** Joints as pricing takes them: places may be left out. */
export const PricedJointSchema = kinds(places).register(z.globalRegistry, { id: 'PricedJoint' });

const JointSchema = kinds(places)
  .superRefine((value, context) => {
    if ((value.closes === undefined) === (value.between === undefined)) {
      context.addIssue({
        code: 'custom',
        path: ['between'],
        message: 'A joint either closes one part on itself ("closes") or lies between two places ("between").',
      });
    }
  })
  .register(z.globalRegistry, { id: 'Joint' });

const jointsTogether = z.array(z.array(id).min(2).max(80)).max(500);

const RulesSchema = z
  .strictObject({
    before: z
      .array(z.tuple([id, id]))
      .max(5000)
      .exactOptional()
      .describe('Pairs of joints: the first is made before the second.'),
    sameHeat: jointsTogether.exactOptional().describe('Joints made in one heat.'),
    notSameHeat: jointsTogether.exactOptional().describe('Joints no two of which share a heat.'),
    maxJointsPerHeat: z.number().int().min(1).max(80).exactOptional(),
    maxSpreadMm: z.number().positive().max(10_000).exactOptional().describe('How far apart the joints of one heat may lie.'),
    leastSilverFraction: fraction.exactOptional().describe('Of every solder used, such as a hallmark asks for.'),
    grades: z
      .record(
        z.string(),
        z.strictObject({
          only: z.string().max(60).exactOptional(),
          exclude: z.array(z.string().max(60)).max(40).exactOptional(),
        }),
      )
      .exactOptional()
      .describe('By joint: the one solder it takes, or those it must not.'),
  })
  .register(z.globalRegistry, { id: 'Rules' });

const ContactSchema = z
  .strictObject({
    kind: z.literal('loose'),
    between: z.tuple([PlaceSchema, PlaceSchema]),
    conductanceWPerK: z.number().positive().max(10).exactOptional().describe('A guess of 0.01 when absent.'),
  })
  .describe('Parts that touch without solder, such as links of a chain. They hang together in the fire from the first heat on.')
  .register(z.globalRegistry, { id: 'Contact' }) satisfies z.ZodType<Contact>;

const designFields = {
  parts: z.array(PartSchema).min(1).max(200),
  contacts: z.array(ContactSchema).max(400).exactOptional(),
  rules: RulesSchema.exactOptional(),
};

/** A design for the heat model and the book: every joint knows its places. */
export const DesignSchema = z.strictObject({ ...designFields, joints: z.array(JointSchema).max(80) });

/** A design for scale and purse. */
export const PricedDesignSchema = z.strictObject({ ...designFields, joints: z.array(PricedJointSchema).max(80) });

/** A design that passed the schema, as the engine names it. */
export function toDesign(design: z.infer<typeof DesignSchema>): Design {
  // The schema has seen to it that a joint has either "closes" or "between"; its type cannot say so.
  return { ...design, joints: design.joints as unknown as Joint[] };
}

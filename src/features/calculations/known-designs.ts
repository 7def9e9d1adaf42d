import type { z } from 'zod';
import { designFaults } from '../../../shared/design/design-faults.ts';
import type { Design } from '../../../shared/design/design.ts';
import { getMetal, type Metal } from '../../../shared/materials/metal.ts';
import type { ObservedHeat, ObservedStrip } from '../../../shared/thermal/calibration/observation.ts';
import type { Db } from '../../platform/db/client.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { withOwnMetals } from '../metals/index.ts';
import type { ObservedHeatSchema, ObservedStripSchema } from './calibration.schema.ts';
import { toDesign, type DesignSchema, type PartSchema } from './design.schema.ts';

/**
 * A design as the engine takes it: a metal of the studio that it names by its id is as it is now.
 *
 * @param at JSON Pointer of the design
 * @throws {Problem} `invalid-fields` for metals that cannot be named, with every other fault of the design
 */
export function knownDesign(db: Db, design: z.infer<typeof DesignSchema>, at = '/design'): Design {
  const { parts, errors } = withOwnMetals(db, design.parts, `${at}/parts`);
  const known = toDesign({ ...design, parts });
  if (errors.length === 0) return known;
  throw invalidFields([...errors, ...designFaults(known).map((fault) => ({ ...fault, pointer: at + fault.pointer }))]);
}

/** @throws {Problem} `invalid-fields` for metals that cannot be named */
export function knownParts(db: Db, parts: readonly z.infer<typeof PartSchema>[], at: string): z.infer<typeof PartSchema>[] {
  const known = withOwnMetals(db, parts, at);
  if (known.errors.length > 0) throw invalidFields(known.errors);
  return known.parts;
}

/** @throws {Problem} `invalid-fields` for a metal that cannot be named */
export function knownMetal(db: Db, metal: z.infer<typeof PartSchema>['metal'], at: string): Metal {
  const known = withOwnMetals(db, [{ metal }], '');
  if (known.errors.length > 0) throw invalidFields(known.errors.map((error) => ({ ...error, pointer: at })));
  return getMetal(known.parts[0]!.metal);
}

/** What was observed, with the metals of the studio that it names. */
export function knownObservations(
  db: Db,
  {
    observations,
    strips = [],
  }: { observations: z.infer<typeof ObservedHeatSchema>[]; strips?: z.infer<typeof ObservedStripSchema>[] },
): { observations: ObservedHeat[]; strips: ObservedStrip[] } {
  const known = withOwnMetals(db, strips, '/strips');
  if (known.errors.length > 0) throw invalidFields(known.errors);
  return {
    observations: observations.map((seen, i) => ({ ...seen, design: knownDesign(db, seen.design, `/observations/${i}/design`) })),
    strips: known.parts,
  };
}

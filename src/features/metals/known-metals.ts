import { isDeepStrictEqual } from 'node:util';
import type { OwnMetal } from '../../../shared/design/design.ts';
import { METAL_TABLE } from '../../../shared/materials/metal-table.ts';
import type { Db } from '../../platform/db/client.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { findOwnMetal, listOwnMetals } from './metals.store.ts';
import { copyOf, isInTable } from './own-metal-values.ts';

type Named = string | OwnMetal;

/** Every metal that may be named: those of the table, then the studio's own, save what is retired. */
export function knownMetalIds(db: Db): string[] {
  return [...Object.keys(METAL_TABLE), ...listOwnMetals(db).flatMap(({ id, active }) => (active ? [id] : []))];
}

/** Why a metal cannot be named; undefined for one that can. */
export function refusalOfMetal(db: Db, id: string): string | undefined {
  if (isInTable(id)) return undefined;
  const own = findOwnMetal(db, id);
  if (own?.active) return undefined;
  if (own) return `${own.name} (${id}) is retired: bring it back first, or choose another metal.`;
  return `There is no metal ${id}: name one of ${knownMetalIds(db).join(', ')}, or add it at POST /metals.`;
}

/**
 * Parts with every metal of the studio that is named by its id alone in place of the id, as it is now.
 *
 * @param at JSON Pointer of the parts, for the errors
 * @returns errors for metals that cannot be named; sterling stands in for them, so that the rest can be looked over too
 */
export function withOwnMetals<Part extends { metal?: Named }>(
  db: Db,
  parts: readonly Part[],
  at: string,
): { parts: Part[]; errors: FieldError[] } {
  const errors: FieldError[] = [];
  const known = parts.map((part, index): Part => {
    const { metal } = part;
    if (typeof metal !== 'string' || isInTable(metal)) return part;
    const detail = refusalOfMetal(db, metal);
    if (detail === undefined) return { ...part, metal: copyOf(findOwnMetal(db, metal)!) };
    errors.push({ pointer: `${at}/${index}/metal`, detail, given: metal });
    return { ...part, metal: 'sterling-925' };
  });
  return { parts: known, errors };
}

/**
 * A copy of a metal of the studio is that metal, as it is now or as the design had it before, and the same in every part.
 *
 * @param before parts of the design as it was saved last
 */
export function copyErrors(db: Db, parts: readonly { metal: Named }[], before: readonly { metal: Named }[]): FieldError[] {
  const first = new Map<string, OwnMetal>();
  return parts.flatMap(({ metal }, index): FieldError[] => {
    if (typeof metal === 'string' || metal.code === undefined) return [];
    const { code } = metal;
    const row = findOwnMetal(db, code);
    const sound = [...(row ? [copyOf(row)] : []), ...before.map((part) => part.metal)];
    const pointer = `/parts/${index}/metal/code`;
    if (!sound.some((one) => isDeepStrictEqual(one, metal)))
      return [
        {
          pointer,
          detail: row
            ? `These are not the numbers of ${code}, as it is now or as this design has it: write "metal": "${code}", or leave the code out.`
            : `There is no metal ${code} of the studio: leave the code out, or add the metal first.`,
          given: code,
        },
      ];
    const other = first.get(code);
    first.set(code, other ?? metal);
    return other === undefined || isDeepStrictEqual(other, metal)
      ? []
      : [
          {
            pointer,
            detail: `Two parts have ${code} with different numbers: write "metal": "${code}" in all of them.`,
            given: code,
          },
        ];
  });
}

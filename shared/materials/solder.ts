import type { CadmiumStanding } from '../design/solder.ts';
import { densityFromComposition } from './density-from-composition.ts';
import { REFERENCE_FILLERS, SOLDER_GRADES, type SolderEntry } from './solder-table.ts';

/** A row of the tables of solders, brought to numbers. */
export interface ListedSolder {
  id: string;
  name: string;
  solidusC: number;
  liquidusC: number;
  /** Share of silver by mass. */
  silverFraction: number;
  /** From the composition. */
  densityGPerCm3: number;
  cadmiumStanding: CadmiumStanding;
  /** A grade to choose from; false for the rows of the standard, which are there to be compared with. */
  isOffered: boolean;
}

/**
 * Every solder of the tables: the jewellers' grades, highest first, then the rows of the standard.
 *
 * @source the sources are in the tables, value by value; density as in densityFromComposition()
 */
export function listSolders(): ListedSolder[] {
  return [
    ...Object.entries(SOLDER_GRADES).map(([id, entry]) => listed(id, entry.name, entry, true)),
    ...Object.entries(REFERENCE_FILLERS).map(([id, entry]) => listed(id, id, entry, false)),
  ];
}

function listed(
  id: string,
  name: string,
  { composition, solidusC, liquidusC }: Omit<SolderEntry, 'name'>,
  isOffered: boolean,
): ListedSolder {
  const { value } = composition;
  return {
    id,
    name,
    solidusC: solidusC.value,
    liquidusC: liquidusC.value,
    silverFraction: (value.Ag ?? 0) / 100,
    densityGPerCm3: densityFromComposition(value),
    cadmiumStanding: (value.Cd ?? 0) > 0 ? 'yes' : 'no',
    isOffered,
  };
}

import { CAUTIONS, DEFERRAL } from '../../../../../shared/cautions/caution-table.ts';
import { CAUTIONS_DE, DEFERRAL_DE } from '../../../../../shared/cautions/cautions-de.ts';

/** The cautions as the book says them, and what every plan defers to. */
export const cautions: Readonly<Record<string, string>> = {
  ...Object.fromEntries(CAUTIONS.map(({ id, words }) => [words, CAUTIONS_DE[id]])),
  [DEFERRAL]: DEFERRAL_DE,
};

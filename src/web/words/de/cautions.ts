import { CAUTIONS_DE } from '../../../../shared/cautions/cautions-de.ts';

/** By the id of each; in English the book says them itself. */
export const cautions = Object.fromEntries(Object.entries(CAUTIONS_DE).map(([id, words]) => [`caution.${id}`, words]));

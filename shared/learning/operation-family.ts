/**
 * Operations that go together: what is known of the others says something of one that has few records.
 *
 * @source by judgement: what the hand does
 */
const FAMILIES: Readonly<Record<string, readonly string[]>> = {
  cutting: ['marking out and sawing', 'piercing inside shapes'],
  forming: ['forming bezels and rings', 'cutting and doming', 'rolling walls', 'annealing'],
  soldering: [
    'fitting joints',
    'closing jump rings',
    'making and placing grains',
    'heats, set up to cool',
    'heats of hollow ware, set up to cool',
    'placing protections and taking them off',
    'pickle, rinse, look',
  ],
  finishing: ['cleaning up joints', 'filing and emery', 'polishing'],
};

/** The family of an operation, by its name; one of the studio's own is a family of its own. */
export function operationFamily(operation: string): string {
  return Object.keys(FAMILIES).find((family) => FAMILIES[family]!.includes(operation)) ?? operation;
}

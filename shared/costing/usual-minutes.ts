/** Hands-on minutes of one operation: low, usual, high; waiting for a bath or for cooling is not in them. */
export interface UsualMinutes {
  operation: string;
  low: number;
  usual: number;
  high: number;
  /** What one of it is. */
  per: string;
}

const of = (operation: string, low: number, usual: number, high: number, per: string): UsualMinutes => ({
  operation,
  low,
  usual,
  high,
  per,
});

/**
 * How long things take at a small bench, to begin with; a studio's own records replace them.
 *
 * @source common practice of the trade, no published source
 */
export const USUAL_MINUTES = {
  saw: of('marking out and sawing', 6, 10, 20, '100 mm of cut'),
  pierce: of('piercing inside shapes', 3, 5, 10, 'shape'),
  form_band: of('forming bezels and rings', 5, 8, 15, 'band or ring'),
  dome: of('cutting and doming', 3, 5, 10, 'disc'),
  roll_wall: of('rolling walls', 30, 45, 90, 'wall of a beaker'),
  grain: of('making and placing grains', 1, 2, 4, 'grain'),
  fit: of('fitting joints', 3, 6, 15, 'joint'),
  close_ring: of('closing jump rings', 2, 4, 8, 'ring'),
  anneal: of('annealing', 4, 6, 10, 'anneal'),
  heat: of('heats, set up to cool', 5, 8, 15, 'heat'),
  heat_hollow_ware: of('heats of hollow ware, set up to cool', 10, 15, 30, 'heat'),
  protect: of('placing protections and taking them off', 1, 2, 5, 'protection'),
  pickle: of('pickle, rinse, look', 2, 3, 8, 'heat'),
  clean_up: of('cleaning up joints', 2, 5, 12, 'joint'),
  file_ring: of('filing and emery', 15, 25, 45, 'ring'),
  file_pendant: of('filing and emery', 25, 45, 90, 'pendant'),
  file_beaker: of('filing and emery', 60, 120, 240, 'beaker'),
  polish_pendant: of('polishing', 15, 30, 60, 'ring or pendant'),
  polish_beaker: of('polishing', 40, 75, 150, 'beaker'),
  pack: of('photo, label, pack', 8, 15, 30, 'piece'),
} as const satisfies Record<string, UsualMinutes>;

export type Operation = keyof typeof USUAL_MINUTES;

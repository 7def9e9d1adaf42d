/** What the search asks about one heat. It knows no physics; whoever answers knows no plans. */

export type MeansKind = 'flame_away' | 'sink' | 'shield' | 'anti_flow';

/** Kinds in the order in which they are tried. */
export const MEANS_KINDS: readonly MeansKind[] = ['flame_away', 'shield', 'sink', 'anti_flow'];

/** One thing done in a heat to spare an earlier joint or a part. Each counts as one protection. */
export interface Means {
  kind: MeansKind;
  /** The joint or part it is meant for. */
  guards: string;
  /** `guarded`: changes that joint or part and nothing else; `section`: may change everything in the fire. */
  reach: 'guarded' | 'section';
}

export type Technique = readonly Means[];

/** The fire of one heat: joints made earlier that hang together with the targets, and the joints to be made. */
export interface Section {
  made: readonly string[];
  targets: readonly string[];
}

export interface Reached {
  peakC: number;
  /** Kelvin by which the peak may be off; taken from every margin. */
  uncertaintyK: number;
  secondsAbove: (limitC: number) => number;
}

export interface HeatTemperatures {
  /** Whether the targets come to flow, and no part begins to melt. */
  possible: boolean;
  /** Earlier joints in the fire. */
  joints: Readonly<Record<string, Reached>>;
  /** Parts in the fire. */
  parts: Readonly<Record<string, Reached>>;
}

export interface HeatOracle {
  /** Temperatures for every solder at once. */
  run: (section: Section, technique: Technique) => Readonly<Record<string, HeatTemperatures>>;
  /** The means that may be used in this heat, each on its own. */
  protect: (section: Section) => readonly Means[];
  /** No technique brings joint or part `id` below this; −Infinity where nothing is promised. */
  bound: (section: Section, solder: string, id: string) => number;
  /** Most means of reach `section` used together in one heat. */
  sectionMeansTogether: number;
  /** What one run costs in work units. */
  workUnitsPerRun: number;
}

/** What the search asks about one heat. It knows no physics; whoever answers knows no plans. */

export type MeansKind = 'flame_away' | 'sink' | 'shield' | 'anti_flow';

/** Kinds in the order in which they are tried. */
export const MEANS_KINDS: readonly MeansKind[] = ['flame_away', 'shield', 'sink', 'anti_flow'];

/** As many of each as a heat may have, where it may have none. */
export const NO_MEANS: Readonly<Record<MeansKind, number>> = { flame_away: 0, shield: 0, sink: 0, anti_flow: 0 };

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
  /** Of an earlier joint in the fire. */
  joint: (id: string) => Reached;
  /** Of a part in the fire. */
  part: (id: string) => Reached;
}

/** What one heat comes to, by the solder it is done with; null where the solder is not known. */
export type HeatAnswer = (solder: string) => HeatTemperatures | null;

export interface HeatOracle {
  /** Temperatures for every solder at once. */
  run: (section: Section, technique: Technique) => HeatAnswer;
  /** The means that may be used in this heat, each on its own. */
  protect: (section: Section) => readonly Means[];
  /** Most means of reach `section` used together in one heat. */
  sectionMeansTogether: number;
  /** Whether it is certain that nothing gets cooler by more joints in the fire, or by more targets. */
  isMonotone: boolean;
  /** What one run costs in work units. */
  workUnitsPerRun: number;
}

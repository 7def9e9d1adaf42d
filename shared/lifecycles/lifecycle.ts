/** Who may make a move: a role (a person's set holds what each role includes), a mark, or someone who is no person. */
export type Mover =
  | 'owner'
  | 'bench'
  | 'desk'
  | 'student'
  /** A bench person or owner who carries the tutor's mark. */
  | 'tutor'
  /** The person the record belongs to. */
  | 'person'
  /** Anyone signed in, never a client. */
  | 'anyone'
  /** A client, by a private link. */
  | 'client'
  /** The server, when a time has come. */
  | 'clock'
  /** The server, as part of another step. */
  | 'system';

/** One allowed change of state, or the same one from several states. */
export interface Move<State extends string = string> {
  from: readonly State[];
  to: State;
  who: readonly Mover[];
  /** The condition as code knows it, and in words; absent: none besides who asks. */
  guard?: string;
  onlyIf?: string;
  /** What happens with it. */
  effect?: string;
}

/** The first state is the one a thing is made in, unless it comes in as something else. */
export interface Lifecycle<State extends string = string, Moves extends readonly Move<State>[] = readonly Move<State>[]> {
  states: readonly State[];
  moves: Moves;
}

/** Checks at compile time that moves run between the states, and keeps the names of states and guards as types. */
export function lifecycle<const State extends string, const Moves extends readonly Move<NoInfer<State>>[]>(
  states: readonly State[],
  moves: Moves,
): Lifecycle<State, Moves> {
  return { states, moves };
}

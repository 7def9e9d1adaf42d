import type { SearchProgress } from '../../platform/db/search-tables.ts';
import type { EndsWith } from '../../platform/workers/on-thread.ts';

/** Hears that a search has come further, with how often it has been told of; or that it has ended. */
export interface Follower {
  onProgress: (told: number) => void;
  onEnd: () => void;
}

interface Live {
  end: (how: EndsWith) => void;
  told: number;
  progress: SearchProgress | null;
  followers: Set<Follower>;
}

/** The searches that this process has under way: how far they are, and who follows them. */
export class LiveSearches {
  readonly #live = new Map<string, Live>();

  begin(id: string, end: Live['end']): void {
    this.#live.set(id, { end, told: 0, progress: null, followers: new Set() });
  }

  has = (id: string): boolean => this.#live.has(id);

  progressOf = (id: string): SearchProgress | null => this.#live.get(id)?.progress ?? null;

  /** How often it has been told of. */
  told = (id: string): number => this.#live.get(id)?.told ?? 0;

  /** Something about it has changed: how far it is, or its state. */
  tell(id: string, progress?: SearchProgress): void {
    const live = this.#live.get(id);
    if (!live) return;
    live.told += 1;
    live.progress = progress ?? live.progress;
    for (const { onProgress } of live.followers) onProgress(live.told);
  }

  stop(id: string, how: EndsWith): void {
    this.#live.get(id)?.end(how);
  }

  /** It is over: what it was is in the book. */
  over(id: string): void {
    const live = this.#live.get(id);
    this.#live.delete(id);
    for (const { onEnd } of live?.followers ?? []) onEnd();
  }

  /** Calls the follower from now on, until it is told to let go; undefined: it is over already. */
  follow(id: string, follower: Follower): (() => void) | undefined {
    const followers = this.#live.get(id)?.followers.add(follower);
    return followers && (() => void followers.delete(follower));
  }

  ids = (): string[] => [...this.#live.keys()];
}

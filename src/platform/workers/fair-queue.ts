import { Problem } from '../http/problem.ts';

export interface QueueLimits {
  /** How many are worked on side by side. */
  places: number;
  mostWaiting: number;
  mostWaitingEach: number;
}

interface Waiting {
  personId: string;
  begin: () => void;
}

/**
 * Work that takes turns: one at a time of each person, and of those who wait the one who was served longest ago. Nobody fills the
 * queue for the others.
 */
export class FairQueue {
  readonly #limits: QueueLimits;
  readonly #running = new Set<string>();
  readonly #lastTurn = new Map<string, number>();
  #waiting: Waiting[] = [];
  #turns = 0;

  constructor(limits: QueueLimits) {
    this.#limits = limits;
  }

  /** @throws {Problem} too-many-requests when this person, or everybody together, has too much waiting */
  holdRoom(personId: string): void {
    const { mostWaiting, mostWaitingEach } = this.#limits;
    if (!this.#running.has(personId) && this.#running.size < this.#limits.places) return;
    const own = this.#waiting.filter((one) => one.personId === personId).length;
    if (own >= mostWaitingEach)
      throw new Problem(
        'too-many-requests',
        `Cannot begin another one for you yet: ${own} of yours wait already; wait until one has ended, or stop one`,
      );
    if (this.#waiting.length >= mostWaiting)
      throw new Problem(
        'too-many-requests',
        `Cannot begin another one yet: ${this.#waiting.length} wait already; try again in a little while`,
      );
  }

  /**
   * Does the work when its turn has come.
   *
   * @param signal gives up the place while it waits
   * @throws {Problem} too-many-requests; whatever the work throws; the reason of the signal
   */
  async enter<Answer>(personId: string, work: () => Promise<Answer>, signal: AbortSignal): Promise<Answer> {
    this.holdRoom(personId);
    await this.#turnOf(personId, signal);
    try {
      return await work();
    } finally {
      this.#running.delete(personId);
      this.#next();
    }
  }

  #turnOf(personId: string, signal: AbortSignal): Promise<void> {
    return new Promise((resolve, reject) => {
      const leave = () => {
        this.#waiting = this.#waiting.filter((one) => one !== waiting);
        reject(signal.reason as Error);
      };
      const waiting: Waiting = {
        personId,
        begin: () => {
          signal.removeEventListener('abort', leave);
          resolve();
        },
      };
      signal.addEventListener('abort', leave);
      this.#waiting.push(waiting);
      this.#next();
    });
  }

  #next(): void {
    while (this.#running.size < this.#limits.places) {
      const [next] = this.#waiting
        .filter(({ personId }) => !this.#running.has(personId))
        .toSorted((a, b) => (this.#lastTurn.get(a.personId) ?? 0) - (this.#lastTurn.get(b.personId) ?? 0));
      if (!next) return;
      this.#waiting = this.#waiting.filter((one) => one !== next);
      this.#running.add(next.personId);
      this.#lastTurn.set(next.personId, (this.#turns += 1));
      next.begin();
    }
  }
}

import type { Clock } from '../src/platform/clock.ts';

/** A clock that is set while the past is written, and then lets go and shows the time. */
export interface SeedClock extends Clock {
  to: (at: Date) => void;
  advance: (minutes: number) => void;
  letGo: () => void;
}

export function seedClock(): SeedClock {
  let at: number | null = null;
  return {
    now: () => new Date(at ?? Date.now()),
    to: (moment) => {
      // Written in order: what one thing took is not taken back by the next.
      at = Math.max(at ?? 0, moment.getTime());
    },
    advance: (minutes) => {
      at = (at ?? Date.now()) + minutes * 60_000;
    },
    letGo: () => {
      at = null;
    },
  };
}

/** What becomes of one thing: it yields the days until it goes on. */
export type Story = AsyncGenerator<number, void>;

const DAY_MS = 86_400_000;

/**
 * Tells stories side by side in the order of time, until the end comes; each stays in the state it has reached by then.
 *
 * @param stories by the day on which each begins, counted back from the end
 */
export async function tell(clock: SeedClock, end: Date, stories: readonly { daysAgo: number; story: Story }[]): Promise<void> {
  const waiting = stories.map(({ daysAgo, story }) => ({ wakesAt: end.getTime() - daysAgo * DAY_MS, story }));
  for (;;) {
    waiting.sort((a, b) => a.wakesAt - b.wakesAt);
    const next = waiting[0];
    if (!next || next.wakesAt > end.getTime()) return;
    clock.to(new Date(next.wakesAt));
    const step = await next.story.next();
    if (step.done) waiting.shift();
    else next.wakesAt += step.value * DAY_MS;
  }
}

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

interface Told {
  title: string;
  daysAgo: number;
  story: Story;
}

/** How far the telling is: so many stories of all have begun, the last of them this one. */
export interface SeedStep {
  begun: number;
  of: number;
  title: string;
}

/**
 * Tells stories side by side in the order of time, until the end comes; each stays in the state it has reached by then.
 *
 * @param stories by the day on which each begins, counted back from the end
 * @param onBegin hears of each story as it begins
 */
export async function tell(
  clock: SeedClock,
  end: Date,
  stories: readonly Told[],
  onBegin: (step: SeedStep) => void = () => undefined,
): Promise<void> {
  const begins = (daysAgo: number) => end.getTime() - daysAgo * DAY_MS;
  const waiting = stories.map(({ title, daysAgo, story }) => ({ title, isNew: true, wakesAt: begins(daysAgo), story }));
  let begun = 0;
  for (;;) {
    waiting.sort((a, b) => a.wakesAt - b.wakesAt);
    const next = waiting[0];
    if (!next || next.wakesAt > end.getTime()) return;
    if (next.isNew) onBegin({ begun: ++begun, of: stories.length, title: next.title });
    next.isNew = false;
    clock.to(new Date(next.wakesAt));
    const step = await next.story.next();
    if (step.done) waiting.shift();
    else next.wakesAt += step.value * DAY_MS;
  }
}

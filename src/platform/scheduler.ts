/** What the clock brings about by itself: each job catches up with all that fell due since it last ran. */
export interface DueJob {
  name: string;
  run: () => void;
}

const EVERY_MS = 60_000;

/**
 * Runs the jobs now, so that what fell due while the server was off is caught up with, and then every minute. The timer
 * does not keep the process alive. A job that fails is told of, and holds up no other.
 */
export function startScheduler(jobs: readonly DueJob[], onError: (job: string, error: unknown) => void): { stop: () => void } {
  const runAll = () => {
    for (const { name, run } of jobs) {
      try {
        run();
      } catch (error) {
        onError(name, error);
      }
    }
  };
  runAll();
  const timer = setInterval(runAll, EVERY_MS);
  timer.unref();
  return { stop: () => clearInterval(timer) };
}

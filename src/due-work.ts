import { runDueBenchTimes } from './features/bench-time/bench-time-due-work.ts';
import { runDueCommissions } from './features/commissions/commission-due-work.ts';
import { runDuePrivateLinks } from './features/private-links/private-link-due-work.ts';
import { runDueQuotes } from './features/quotes/quote-due-work.ts';
import type { Platform } from './platform/platform.ts';
import type { DueJob } from './platform/scheduler.ts';

/** All that the clock brings about. Commissions first: a version lapses when its commission goes quiet. */
export function dueWork(platform: Platform): DueJob[] {
  return [
    { name: 'commissions', run: () => runDueCommissions(platform) },
    { name: 'quotes', run: () => runDueQuotes(platform) },
    { name: 'private links', run: () => runDuePrivateLinks(platform) },
    { name: 'bench times', run: () => runDueBenchTimes(platform) },
  ];
}

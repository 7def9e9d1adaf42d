import { runDueBenchTimes } from './features/bench-time/bench-time-due-work.ts';
import { runDueCommissions } from './features/commissions/commission-due-work.ts';
import { runDuePlanSearches } from './features/plan-searches/plan-search-due-work.ts';
import { runDuePrivateLinks } from './features/private-links/private-link-due-work.ts';
import { runDueQuotes } from './features/quotes/quote-due-work.ts';
import { runDueCosts } from './features/stock/index.ts';
import type { Platform } from './platform/platform.ts';
import type { DueJob } from './platform/scheduler.ts';
import type { Services } from './services.ts';

/** All that the clock brings about. Commissions first: a version lapses when its commission goes quiet. */
export function dueWork(platform: Platform, { backups, lateNotes }: Pick<Services, 'backups' | 'lateNotes'>): DueJob[] {
  return [
    { name: 'late notes', run: () => lateNotes.again() },
    { name: 'commissions', run: () => runDueCommissions(platform) },
    { name: 'quotes', run: () => runDueQuotes(platform) },
    { name: 'private links', run: () => runDuePrivateLinks(platform) },
    { name: 'bench times', run: () => runDueBenchTimes(platform) },
    { name: 'plan searches', run: () => runDuePlanSearches(platform) },
    { name: 'costs of stock', run: () => runDueCosts(platform) },
    { name: 'backups', run: () => backups.runDue() },
  ];
}

import { allowed } from './allowed.ts';
import { backups } from './backups.ts';
import { baths } from './baths.ts';
import { bench } from './bench.ts';
import { benchTime } from './bench-time.ts';
import { cautions } from './cautions.ts';
import { commissions } from './commissions.ts';
import { costing } from './costing.ts';
import { designs } from './designs.ts';
import { documents } from './documents.ts';
import { fences } from './fences.ts';
import { hallmarks } from './hallmarks.ts';
import { heats } from './heats.ts';
import { imports } from './imports.ts';
import { learning } from './learning.ts';
import { limits } from './limits.ts';
import { metals } from './metals.ts';
import { people } from './people.ts';
import { pieces } from './pieces.ts';
import { planChanges } from './plan-changes.ts';
import { planChecks } from './plan-checks.ts';
import { planSearch } from './plan-search.ts';
import { plans } from './plans.ts';
import { platform } from './platform.ts';
import { quotes } from './quotes.ts';
import { reportRows } from './report-rows.ts';
import { reports } from './reports.ts';
import { settingsSaid } from './settings.ts';
import { stock } from './stock.ts';
import { stockMetal } from './stock-metal.ts';
import { stockOrders } from './stock-orders.ts';
import { thermal } from './thermal.ts';
import { values } from './values.ts';

/** What the engine and the server say, by room: the English template of the source, and its German. */
export const ROOMS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  allowed,
  backups,
  baths,
  bench,
  benchTime,
  cautions,
  commissions,
  costing,
  designs,
  documents,
  fences,
  hallmarks,
  heats,
  imports,
  learning,
  limits,
  metals,
  people,
  pieces,
  planChanges,
  planChecks,
  planSearch,
  plans,
  platform,
  quotes,
  reportRows,
  reports,
  settingsSaid,
  stock,
  stockMetal,
  stockOrders,
  thermal,
  values,
};

/** All of it, without rooms. */
export const SAID: Readonly<Record<string, string>> = Object.assign({}, ...Object.values(ROOMS));

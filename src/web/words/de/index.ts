import type { MessageKey } from '../en/index.ts';
import { bench } from './bench.ts';
import { cautions } from './cautions.ts';
import { photos } from './photos.ts';
import { timers } from './timers.ts';
import { tablet } from './tablet.ts';
import { pieces } from './pieces.ts';
import { plan } from './plan.ts';
import { payments } from './payments.ts';
import { price } from './price.ts';
import { reports } from './reports.ts';
import { reportColumns } from './report-columns.ts';
import { dates } from './dates.ts';
import { firstSteps } from './first-steps.ts';
import { sample } from './sample.ts';
import { shell } from './shell.ts';
import { settings } from './settings.ts';
import { studio } from './studio.ts';
import { clients } from './clients.ts';
import { commissions } from './commissions.ts';
import { design } from './design.ts';
import { drawer } from './drawer.ts';
import { drawerOrders } from './drawer-orders.ts';
import { journal } from './journal.ts';
import { journalFields } from './journal-fields.ts';
import { drawerCounts } from './drawer-counts.ts';
import { drawerSupplies } from './drawer-supplies.ts';

export const de: Readonly<Record<MessageKey, string>> = {
  ...reports,
  ...reportColumns,
  ...dates,
  ...shell,
  ...firstSteps,
  ...sample,
  ...settings,
  ...studio,
  ...clients,
  ...bench,
  ...cautions,
  ...photos,
  ...timers,
  ...tablet,
  ...pieces,
  ...plan,
  ...commissions,
  ...design,
  ...price,
  ...payments,
  ...drawer,
  ...drawerOrders,
  ...journal,
  ...journalFields,
  ...drawerCounts,
  ...drawerSupplies,
};

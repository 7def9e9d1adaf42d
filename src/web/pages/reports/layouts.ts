import { BENCH_REPORTS } from './bench-columns.ts';
import { MONEY_REPORTS } from './money-columns.ts';
import type { AnyLayout, ReportName } from './report-columns.ts';
import { STOCK_REPORTS } from './stock-columns.ts';

/** How each report is laid out. */
export const LAYOUTS: Readonly<Record<ReportName, AnyLayout>> = { ...MONEY_REPORTS, ...BENCH_REPORTS, ...STOCK_REPORTS };

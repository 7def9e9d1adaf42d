export { findBenchOf, findOpenBench } from './studio-days.store.ts';
export { capacityOf, weekdayOf } from './capacity.ts';

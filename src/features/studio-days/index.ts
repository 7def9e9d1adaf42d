export { capacityOf, weekdayOf } from './capacity.ts';

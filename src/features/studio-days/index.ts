export { capacityOf, weekdayOf, type Capacity } from './capacity.ts';

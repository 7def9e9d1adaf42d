export { factorInUse } from './learning.service.ts';
export { operationRecords } from './time-records.ts';

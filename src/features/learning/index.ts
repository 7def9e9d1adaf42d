export { factorInUse } from './learning.service.ts';

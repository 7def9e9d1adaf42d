export { jarsNow } from './jars.ts';

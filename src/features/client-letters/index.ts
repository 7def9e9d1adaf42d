export { lettersOf } from './client-letters.store.ts';

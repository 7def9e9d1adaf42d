export { copyErrors, knownMetalIds, refusalOfMetal, withOwnMetals } from './known-metals.ts';

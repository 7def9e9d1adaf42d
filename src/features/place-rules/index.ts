export { Place } from './place-rules.schema.ts';
export { findPlaceRules, type PlaceRulesRow } from './place-rules.store.ts';

export { findPlaceRules, type PlaceRulesRow } from './place-rules.store.ts';

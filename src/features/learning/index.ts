export { factorOffers, type FactorOffer } from './factor-offers.ts';
export { factorInUse } from './learning.service.ts';

export { bathClocks } from './bath-clocks.ts';
export { says as sayBath } from './baths.service.ts';
export { allBaths, getBath, type BathRow } from './baths.store.ts';
export { bookDip, holdBathFit } from './dip.ts';

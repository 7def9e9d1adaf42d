/** Four pieces of Quillwharf Bench; the pendant is the piece that `npm run demo` plans and prices. */

export { boxLid, earring, grainRing, pendant } from '../shared/design/examples.ts';

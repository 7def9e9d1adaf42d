/** Property tests draw the same examples every run, so a failure repeats; PROPERTY_SEED=n looks elsewhere. */

import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 925) });

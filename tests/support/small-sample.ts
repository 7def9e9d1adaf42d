import { buildApp } from '../../src/app.ts';
import { SAMPLE_SIGN_IN, type SampleStudio } from '../../src/features/samples/index.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { sampleStudio } from '../../src/sample-studio.ts';

/** A sample studio of its owner and nothing else, made in a moment and opened as the real one is. */
export const smallStudio: SampleStudio = {
  async make(onStep) {
    onStep({ begun: 1, of: 1, title: 'Nothing but people' });
    const { db, close } = openDb(':memory:', new Date());
    const { http, services, firstOwnerCode } = await buildApp({ db, clock: { now: () => new Date() } }, { logLevel: 'silent' });
    const { names, password } = SAMPLE_SIGN_IN;
    await services.people.makeFirstOwner({ code: firstOwnerCode, name: 'Flint', signInName: names[0], password });
    const book = db.$client.serialize();
    await http.close();
    close();
    return book;
  },
  open: sampleStudio.open,
};

/** A program that makes the invented studio in memory, tells how far it is, and hands its book to the process that started it. */

import { buildApp } from '../src/app.ts';
import { SAMPLE_SIGN_IN, type SampleMessage } from '../src/features/samples/index.ts';
import { openDb } from '../src/platform/db/client.ts';
import { seedClock } from './calendar.ts';
import { mainJob } from './main-job.ts';
import { seedStudio } from './seed.ts';
import { rolesOf, signInsFor } from './sign-ins.ts';

const tell = (message: SampleMessage) => new Promise<void>((told) => process.send!(message, () => told()));
// Nobody waits for it any more.
process.once('disconnect', () => process.exit());

const clock = seedClock();
const { db, close } = openDb(':memory:', clock.now());
const { http, services } = await buildApp({ db, clock });
await seedStudio(db, services, clock, (step) => void tell({ step }));
const actors = rolesOf(db);
await signInsFor(services, actors, SAMPLE_SIGN_IN.password);
await mainJob(services, actors[0]!.actor);
await tell({ book: db.$client.serialize() });
await http.close();
close();
process.disconnect();

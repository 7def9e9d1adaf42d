import { join } from 'node:path';
import { mainJob } from '../../seed/main-job.ts';
import { seedClock } from '../../seed/calendar.ts';
import { seedStudio } from '../../seed/seed.ts';
import { rolesOf } from '../../seed/sign-ins.ts';
import { buildApp } from '../../src/app.ts';
import { openDb } from '../../src/platform/db/client.ts';

/** The invented studio, with its main job done, as a file in a folder: what larger books are grown from. @returns its path */
export async function modelBook(folder: string): Promise<string> {
  const file = join(folder, 'model.sqlite');
  const clock = seedClock();
  const { db, close } = openDb(file, clock.now());
  db.$client.pragma('synchronous = OFF');
  const { http, services } = await buildApp({ db, clock }, { logLevel: 'silent' });
  await seedStudio(db, services, clock);
  await mainJob(services, rolesOf(db)[0]!.actor);
  await http.close();
  close();
  return file;
}

/** A throw-away studio with the main job done on it, served until it is stopped. Everything in it is invented. */

import { randomBytes } from 'node:crypto';
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp } from '../src/app.ts';
import { bookFile, readConfig } from '../src/config.ts';
import { anyOwner } from '../src/features/people/people.store.ts';
import { openDb } from '../src/platform/db/client.ts';
import { serve } from '../src/serve.ts';
import { clientPageOf } from './client-page-of.ts';
import { seedClock } from './calendar.ts';
import { mainJob } from './main-job.ts';
import { seedStudio } from './seed.ts';
import { rolesOf, signInsFor } from './sign-ins.ts';
import { STUDIO_NAME } from './studio.ts';

const config = readConfig(process.env, process.env['HEARTHBOOK_DATA'] ? '' : mkdtempSync(join(tmpdir(), 'hearthbook-')));
const clock = seedClock();
const isNew = !existsSync(bookFile(config));
const { db, close } = openDb(bookFile(config), clock.now());
const platform = { db, clock };
const { http, services } = await buildApp(platform);

if (isNew || !anyOwner(db)) {
  console.log(`Writing twelve weeks of an invented studio, ${STUDIO_NAME} …`);
  await seedStudio(db, services, clock);
} else if (services.settings.get().settings.studioName !== STUDIO_NAME) {
  console.error(
    `The folder ${config.dataFolder} holds the book of another studio: the demo leaves it alone. Set HEARTHBOOK_DATA to a new folder.`,
  );
  close();
  process.exit(1);
}
const actors = rolesOf(db);
for (const line of await mainJob(services, actors[0]!.actor)) console.log(line);

const address = await serve(http, { platform, services, config, closeBook: close });
console.log(`Data in ${config.dataFolder}`);
console.log(`Hearthbook is at ${address}; its pages of documentation at ${address}/docs`);
const client = clientPageOf(services, actors[0]!.actor);
if (client) console.log(`What the client of ${client.number} sees, without signing in: ${address}${client.path}`);
const password = randomBytes(6).toString('base64url') + randomBytes(4).toString('hex');
console.log(`On the page sign in as ${actors.map(({ role }) => role).join(', ')}; the password of this start is ${password}`);
await signInsFor(services, actors, password);
for (const { role, actor } of actors) console.log(`token ${role} ${services.keys.addToken(actor, { name: 'demo' }).token}`);

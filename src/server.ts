import { buildApp } from './app.ts';
import { bookFile, readConfig } from './config.ts';
import { systemClock } from './platform/clock.ts';
import { openDb } from './platform/db/client.ts';
import { serve } from './serve.ts';

const config = readConfig(process.env);
const { db, close } = openDb(bookFile(config), systemClock.now());
const platform = { db, clock: systemClock };
const { http, services, firstOwnerCode } = await buildApp(platform);
const address = await serve(http, { platform, config, closeBook: close });
console.log(`Hearthbook is at ${address}; its pages of documentation at ${address}/docs`);
if (services.people.ownerMissing()) {
  console.log(
    `There is no owner yet. One-time code for making one (POST ${address}/api/v1/people/first-owner): ${firstOwnerCode}`,
  );
}

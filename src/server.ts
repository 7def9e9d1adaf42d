import { buildApp } from './app.ts';
import { readConfig } from './config.ts';
import { systemClock } from './platform/clock.ts';
import { sampleStudio } from './sample-studio.ts';
import { openOrSay, serve } from './serve.ts';

const config = readConfig(process.env);
const { db, close } = openOrSay(config, systemClock.now());
const platform = { db, clock: systemClock };
const { http, services, firstOwnerCode } = await buildApp(platform, { sampleStudio, trustedProxies: config.trustedProxies });
const address = await serve(http, { platform, services, config, closeBook: close });
console.log(`Hearthbook is at ${address}; its pages of documentation at ${address}/docs`);
if (services.people.ownerMissing()) {
  console.log(`There is no owner yet. Open ${address} and type this one-time code: ${firstOwnerCode}`);
}

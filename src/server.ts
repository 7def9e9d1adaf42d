import { buildApp } from './app.ts';
import { bookFile, readConfig } from './config.ts';
import { dueWork } from './due-work.ts';
import { systemClock } from './platform/clock.ts';
import { startScheduler } from './platform/scheduler.ts';

// better-sqlite3 needs Node-API 10; an older Node would crash without a word.
if (Number(process.versions.napi) < 10) {
  process.stderr.write(
    `Hearthbook needs Node 22.18 or newer; this is ${process.version}. On Linux "npm ci" brings the right one for "npm start".\n`,
  );
  process.exit(1);
}

const { openDb } = await import('./platform/db/client.ts');
const config = readConfig(process.env);
const { db, close } = openDb(bookFile(config), systemClock.now());
const platform = { db, clock: systemClock };
const { http, services, firstOwnerCode } = await buildApp(platform);
const scheduler = startScheduler(dueWork(platform), (job, error) => http.log.error({ err: error, job }, 'due work failed'));

for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, () => {
    scheduler.stop();
    void http.close().then(() => {
      close();
      process.exit(0);
    });
  });
}

const address = await http.listen({ host: config.host, port: config.port });
console.log(`Hearthbook is at ${address}; its pages of documentation at ${address}/docs`);
if (services.people.ownerMissing()) {
  console.log(
    `There is no owner yet. One-time code for making one (POST ${address}/api/v1/people/first-owner): ${firstOwnerCode}`,
  );
}

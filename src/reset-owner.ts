import { existsSync } from 'node:fs';
import { bookFile, readConfig } from './config.ts';
import { giveOwnerCode, ownersWhoSignIn } from './features/people/owner-reset.ts';
import { systemClock } from './platform/clock.ts';
import { openDb } from './platform/db/client.ts';

/** `npm run reset-owner [sign-in name]`: prints a code with which an owner sets a new password. The server may run meanwhile. */
const config = readConfig(process.env);
const file = bookFile(config);
const say = (line: string) => process.stdout.write(`${line}\n`);

if (!existsSync(file)) {
  process.stderr.write(`There is no book at ${file}. Set HEARTHBOOK_DATA to the folder it is in.\n`);
  process.exit(1);
}
const { db, close } = openDb(file, systemClock.now());
const owners = ownersWhoSignIn(db);
const asked = process.argv[2];
const owner = asked === undefined && owners.length === 1 ? owners[0] : owners.find(({ signInName }) => signInName === asked);
if (owner) {
  const { code, expiresAt } = giveOwnerCode({ db, clock: systemClock }, owner.id);
  say(`One-time code for ${owner.signInName}, good until ${expiresAt}: ${code}`);
  say(`Send it with the new password (12 letters or more) while the server runs:`);
  say(
    `curl -s http://${config.host}:${config.port}/api/v1/people/owner-resets -H 'content-type: application/json' -d '{ "code": "${code}", "password": "…" }'`,
  );
} else {
  const names = owners.map(({ signInName }) => signInName).join(', ');
  process.stderr.write(names === '' ? 'No owner signs in here yet.\n' : `Say which owner: npm run reset-owner -- ${names}\n`);
  process.exitCode = 1;
}
close();

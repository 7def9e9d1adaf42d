import { hostname } from 'node:os';
import { join } from 'node:path';
import { toString as square } from 'qrcode';
import { buildApp } from './app.ts';
import { readConfig, readLanConfig } from './config.ts';
import { systemClock } from './platform/clock.ts';
import { keptCertificates } from './platform/tls/kept-certificates.ts';
import { listenTls, tlsServerOf } from './platform/tls/serve-tls.ts';
import { networkAddresses, studioNames } from './platform/tls/studio-names.ts';
import { sampleStudio } from './sample-studio.ts';
import { listening, openOrSay, serve } from './serve.ts';

/** `npm run lan`: the book for the studio's own network over TLS, and over plain HTTP for this machine alone. */
const LOOK_AGAIN_MS = 6 * 3_600_000;

const say = (line: string) => process.stdout.write(`${line}\n`);
const config = { ...readConfig(process.env), host: '127.0.0.1' };
const lan = readLanConfig(process.env);
const { db, close } = openOrSay(config, systemClock.now());
const platform = { db, clock: systemClock };
const certificates = () =>
  keptCertificates(join(config.dataFolder, 'lan'), {
    names: studioNames(lan.name),
    commonName: `Hearthbook on ${hostname()}`.slice(0, 64),
    now: systemClock.now(),
  });
const { authority, server } = await certificates();
const { http, services, firstOwnerCode } = await buildApp(platform, {
  authority,
  sampleStudio,
  trustedProxies: config.trustedProxies,
});
const tls = tlsServerOf(http, server);
const here = await serve(http, { platform, services, config, closeBook: close });
const port = await listening(listenTls(tls, lan), lan, () => http.close(), 'LAN_HOST or LAN_PORT');

let told = '';
async function tellAddress(): Promise<void> {
  const [likeliest, ...others] = [...(lan.name === null ? [] : [lan.name]), ...networkAddresses()].map(
    (name) => `https://${name}:${port}`,
  );
  if (likeliest === undefined) {
    say('This machine is on no network now: connect it, and start this again.');
    return;
  }
  if (told === likeliest) return;
  told = likeliest;
  say(`Hearthbook is at ${likeliest} for the studio's network, and at ${here} on this machine`);
  if (others.length > 0) say(`Other ways to it: ${others.join(' ')}`);
  say(`To add a tablet, open ${likeliest}/docs/tablet on it; this square leads there:`);
  say(await square(`${likeliest}/docs/tablet`, { type: 'terminal', small: true }));
  say(`Fingerprint of the authority, to compare on the tablet (SHA-256):\n${authority.fingerprint}`);
}

await tellAddress();
if (authority.isNew) say('The authority is new: every tablet has to be told once to trust it.');
if (authority.notBefore) {
  say(
    `The authority counts from ${authority.notBefore.toISOString()} on, and the clock of this machine says it is earlier: set the clock.`,
  );
  say('If the clock is right, delete authority.crt and authority.key in the folder lan, and start this again.');
}
if (services.people.ownerMissing()) {
  say(`There is no owner yet. Open ${here} and type this one-time code: ${firstOwnerCode}`);
}

// A certificate that nears its end, or an address that changed, is seen to while the server runs.
setInterval(() => {
  void certificates()
    .then(async (now) => {
      if (now.renewed) tls.setSecureContext({ cert: now.server.certificate, key: now.server.key });
      await tellAddress();
    })
    .catch((error: unknown) => http.log.error({ err: error }, 'the certificate could not be renewed'));
}, LOOK_AGAIN_MS).unref();

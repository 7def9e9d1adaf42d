import { createHash, X509Certificate } from 'node:crypto';
import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { IncomingHttpHeaders } from 'node:http';
import { expect, onTestFinished, test } from 'vitest';
import { keptCertificates } from '../../src/platform/tls/kept-certificates.ts';
import { networkAddresses } from '../../src/platform/tls/studio-names.ts';
import { openBrowser } from '../support/browser.ts';
import { expectNoSidewaysScroll } from '../support/page.ts';
import { serveLan } from '../support/serve-lan.ts';
import { startApp } from '../support/start-app.ts';

const NAME = 'studio.test';
const PASSWORD = 'a sentence only for tests';

interface Answer {
  status: number;
  headers: IncomingHttpHeaders;
  body: Buffer;
}

/** Asks over TLS as a device of the network would: by the name, trusting only what is given. */
function ask(path: string, { port, ca, name = NAME, send }: { port: number; ca?: string; name?: string; send?: object }) {
  return new Promise<Answer>((resolve, reject) => {
    const asking = request(
      {
        host: '127.0.0.1',
        servername: name,
        port,
        path,
        method: send ? 'POST' : 'GET',
        headers: { host: `${name}:${port}`, ...(send && { 'content-type': 'application/json' }) },
        ...(ca && { ca }),
      },
      (reply) => {
        const chunks: Buffer[] = [];
        reply.on('data', (chunk: Buffer) => chunks.push(chunk));
        reply.on('end', () => resolve({ status: reply.statusCode!, headers: reply.headers, body: Buffer.concat(chunks) }));
      },
    );
    asking.on('error', reject);
    asking.end(send && JSON.stringify(send));
  });
}

function aFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-tls-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return join(folder, 'lan');
}

test('a clock that was put back makes no other authority, which every tablet would have to be told of', async () => {
  const folder = aFolder();
  const at = (now: string) => keptCertificates(folder, { names: [NAME], commonName: 'Hearthbook on anvil', now: new Date(now) });
  const { authority } = await at('2031-05-05T08:00:00Z');
  const back = await at('2000-01-01T00:00:00Z');
  expect(back).toMatchObject({
    renewed: true,
    authority: { isNew: false, fingerprint: authority.fingerprint, notBefore: new Date('2031-05-04T08:00:00Z') },
  });
  expect(await at('2031-05-05T09:00:00Z')).toMatchObject({
    renewed: true,
    authority: { isNew: false, fingerprint: authority.fingerprint, notBefore: null },
  });
});

test('certificates are kept, and made anew when they near their end or no longer fit the addresses', async () => {
  const folder = aFolder();
  const commonName = 'Hearthbook on anvil';
  const at = (now: string, ...names: string[]) => keptCertificates(folder, { names, commonName, now: new Date(now) });
  const first = await at('2031-05-05T08:00:00Z', NAME, '192.168.1.20');
  expect(first).toMatchObject({ renewed: true, authority: { isNew: true } });
  for (const name of ['authority', 'server']) expect(statSync(join(folder, `${name}.key`)).mode & 0o777).toBe(0o600);
  expect(statSync(folder).mode & 0o777).toBe(0o700);

  const again = await at('2031-06-05T08:00:00Z', '192.168.1.20');
  expect(again).toMatchObject({ renewed: false, authority: { isNew: false }, server: first.server });

  const moved = await at('2031-06-05T08:00:00Z', NAME, '192.168.1.77');
  expect(moved).toMatchObject({ renewed: true, authority: { isNew: false, fingerprint: first.authority.fingerprint } });
  const certificate = new X509Certificate(moved.server.certificate);
  expect(certificate.checkIP('192.168.1.77')).toBe('192.168.1.77');
  expect(certificate.checkIP('192.168.1.20')).toBeUndefined();
  expect(certificate.ca).toBe(false);
  // Browsers refuse a server's certificate that is good for longer than 398 days (CA/Browser Forum, Baseline Requirements 6.3.2).
  expect(Date.parse(certificate.validTo) - Date.parse(certificate.validFrom)).toBeLessThanOrEqual(398 * 86_400_000);

  const nearItsEnd = await at('2032-06-10T08:00:00Z', NAME, '192.168.1.77');
  expect(nearItsEnd).toMatchObject({ renewed: true, authority: { isNew: false } });
  const tenYearsOn = await at('2041-01-01T08:00:00Z', NAME, '192.168.1.77');
  expect(tenYearsOn).toMatchObject({ renewed: true, authority: { isNew: true } });
  expect(
    new X509Certificate(tenYearsOn.server.certificate).checkIssued(new X509Certificate(tenYearsOn.authority.certificate)),
  ).toBe(true);
});

test('a key that came back readable to others is closed again, and half a file is as good as none', async () => {
  const folder = aFolder();
  const look = () => keptCertificates(folder, { names: [NAME], commonName: 'Hearthbook', now: new Date('2031-05-05T08:00:00Z') });
  const { authority } = await look();
  chmodSync(join(folder, 'authority.key'), 0o644);
  expect((await look()).authority).toMatchObject({ isNew: false, fingerprint: authority.fingerprint });
  expect(statSync(join(folder, 'authority.key')).mode & 0o777).toBe(0o600);
  writeFileSync(join(folder, 'server.crt'), '-----BEGIN CERTIFICATE-----\nMIIB');
  expect(await look()).toMatchObject({ renewed: true, authority: { isNew: false } });
});

const info = (address: string, internal = false) =>
  ({ address, internal, family: 'IPv4', netmask: '', mac: '', cidr: null }) as const;

test('the likeliest address is that of the studio’s router', () => {
  const found = networkAddresses({
    lo: [info('127.0.0.1', true)],
    docker0: [info('172.17.0.1')],
    eth1: [info('10.0.0.4')],
    eth0: [info('192.168.1.20')],
    eth2: [info('169.254.3.4')],
  });
  expect(found).toEqual(['192.168.1.20', '10.0.0.4', '172.17.0.1']);
});

test('npm run lan serves a chain that a device trusts by the authority alone, and gives nobody a key', async () => {
  const lan = await serveLan(NAME);
  const ca = readFileSync(lan.authorityFile, 'utf8');
  expect(lan.printed).toContain(`https://${NAME}:${lan.port}/docs/tablet`);
  expect(lan.printed).toContain(new X509Certificate(ca).fingerprint256);
  expect(lan.printed).toMatch(/[▀▄█]{3}/);

  expect(JSON.parse((await ask('/api/v1/health', { ...lan, ca })).body.toString())).toMatchObject({ ownerMissing: true });
  await expect(ask('/api/v1/health', lan)).rejects.toThrow(/self-signed|unable to (verify|get)/);
  await expect(ask('/api/v1/health', { ...lan, ca, name: 'elsewhere.test' })).rejects.toThrow(/altnames/);

  const fetched = await ask('/docs/tablet/authority.crt', { ...lan, ca });
  expect(fetched.headers['content-type']).toBe('application/x-x509-ca-cert');
  expect(fetched.body).toEqual(new X509Certificate(ca).raw);
  for (const path of ['/docs/tablet/authority.key', '/lan/authority.key', '/authority.key', '/docs/tablet/../lan/server.key']) {
    expect((await ask(path, { ...lan, ca })).body.toString(), path).not.toContain('PRIVATE KEY');
  }

  const owner = { name: 'Flint', signInName: 'flint', password: PASSWORD };
  const made = await ask('/api/v1/people/first-owner', { ...lan, ca, send: { code: lan.code, ...owner } });
  expect(made.status).toBe(201);
  const door = { signInName: 'flint', password: PASSWORD };
  const signedIn = await ask('/api/v1/sessions', { ...lan, ca, send: door });
  expect(String(signedIn.headers['set-cookie'])).toMatch(/; Secure/);
  const onTheMachine = await fetch(`${lan.plain}/api/v1/sessions`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(door),
  });
  expect(onTheMachine.headers.get('set-cookie')).not.toMatch(/; Secure/);
});

test('a browser on the network takes it for secure, and opens the page with the server gone', async () => {
  const lan = await serveLan(NAME);
  // No store of authorities can be filled in a test; trusting this one key leaves every other error of a certificate one.
  const key = new X509Certificate(readFileSync(join(lan.folder, 'lan', 'server.crt'))).publicKey.export({
    type: 'spki',
    format: 'der',
  });
  const browser = await openBrowser([
    `--host-resolver-rules=MAP ${NAME} 127.0.0.1`,
    `--ignore-certificate-errors-spki-list=${createHash('sha256').update(key).digest('base64')}`,
  ]);
  const context = await browser.newContext({ locale: 'en' });
  const page = await context.newPage();
  await page.goto(`https://${NAME}:${lan.port}/`);
  await page.getByRole('heading', { name: 'A new book' }).waitFor();
  expect(await page.evaluate('isSecureContext')).toBe(true);
  expect(await page.evaluate('navigator.serviceWorker.ready.then(({ active }) => active.scriptURL)')).toBe(
    `https://${NAME}:${lan.port}/service-worker.js`,
  );
  await page.evaluate(`navigator.serviceWorker.controller ||
    new Promise((taken) => navigator.serviceWorker.addEventListener('controllerchange', taken, { once: true })).then(() => true)`);
  await lan.stop();
  await page.reload();
  await page.getByText("The studio's machine does not answer").waitFor();
});

test('the page for adding a tablet reads in English and German, and says when there is no authority', async () => {
  const { baseUrl } = await startApp();
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 360, height: 800 }, locale: 'de-AT' });
  await page.goto(`${baseUrl}/docs/tablet`);
  await page.getByRole('heading', { name: 'Ein Tablet dazunehmen' }).waitFor();
  await page.getByText('„npm run lan“ neu').waitFor();
  expect(await page.getAttribute('html', 'lang')).toBe('de');
  await expectNoSidewaysScroll(page);
  await page.getByRole('link', { name: 'This page in English' }).click();
  await page.getByRole('heading', { name: 'Add a tablet' }).waitFor();
  expect((await fetch(`${baseUrl}/docs/tablet/authority.crt`)).status).toBe(404);
});

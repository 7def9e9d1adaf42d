// The library looks for the reflection it needs when it is loaded, so this stands first.
import 'reflect-metadata';
import { webcrypto } from 'node:crypto';
import { isIP } from 'node:net';
import * as x509 from '@peculiar/x509';

/** A certificate and its private key, both as PEM. */
export interface KeyPair {
  certificate: string;
  key: string;
}

const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const DAY_MS = 86_400_000;
const AUTHORITY_YEARS = 10;
/** Browsers take no certificate of a server that is good for more than 398 days, of their own list of authorities at least. */
const SERVER_DAYS = 397;
/** A device whose clock is a little behind must not find a certificate that is not good yet. */
const BACKDATED_MS = DAY_MS;

/** An authority that the studio's own devices can be told to trust: it signs this server's certificate and nothing else. */
export async function makeAuthority(commonName: string, now: Date): Promise<KeyPair> {
  const keys = await newKeys();
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serialNumber(),
    name: [{ CN: [commonName] }],
    notBefore: new Date(now.getTime() - BACKDATED_MS),
    notAfter: new Date(now.getTime() + AUTHORITY_YEARS * 365 * DAY_MS),
    signingAlgorithm: ALGORITHM,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { certificate: pem(certificate), key: await keyPem(keys.privateKey) };
}

/** @param names every name and address under which devices call the server; the first one is its common name */
export async function makeServerCertificate(authority: KeyPair, names: readonly string[], now: Date): Promise<KeyPair> {
  const keys = await newKeys();
  const issuer = new x509.X509Certificate(authority.certificate);
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serialNumber(),
    subject: [{ CN: [names[0]!.slice(0, 64)] }],
    issuer: issuer.subjectName,
    notBefore: new Date(now.getTime() - BACKDATED_MS),
    notAfter: new Date(now.getTime() + (SERVER_DAYS - 1) * DAY_MS),
    signingAlgorithm: ALGORITHM,
    publicKey: keys.publicKey,
    signingKey: await privateKeyOf(authority.key),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((value) => ({ type: isIP(value) === 0 ? ('dns' as const) : ('ip' as const), value })),
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  });
  return { certificate: pem(certificate), key: await keyPem(keys.privateKey) };
}

function newKeys(): Promise<webcrypto.CryptoKeyPair> {
  return webcrypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify']);
}

function pem(certificate: x509.X509Certificate): string {
  return `${certificate.toString('pem')}\n`;
}

async function keyPem(key: webcrypto.CryptoKey): Promise<string> {
  return `${x509.PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY')}\n`;
}

function privateKeyOf(pemText: string): Promise<webcrypto.CryptoKey> {
  return webcrypto.subtle.importKey('pkcs8', x509.PemConverter.decodeFirst(pemText), ALGORITHM, false, ['sign']);
}

/** Random and positive, as RFC 5280 §4.1.2.2 asks. */
function serialNumber(): string {
  const bytes = webcrypto.getRandomValues(new Uint8Array(16));
  bytes[0] = (bytes[0]! & 0x7f) | 0x40;
  return Buffer.from(bytes).toString('hex');
}

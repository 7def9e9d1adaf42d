import { createPrivateKey, X509Certificate } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { writeWhole } from '../whole-file.ts';
import { makeAuthority, makeServerCertificate, type KeyPair } from './certificates.ts';

/** Left to a certificate of the server when another is made in its place. */
const RENEWED_BEFORE_DAYS = 30;
/** An authority outlives every certificate it signs. */
const AUTHORITY_RENEWED_BEFORE_DAYS = 400;
const OWNER_ONLY = 0o600;
const READABLE = 0o644;

export interface Certificates {
  authority: {
    certificate: string;
    fileName: string;
    fingerprint: string;
    isNew: boolean;
    /** From when on it counts, where that is later than the clock says it is: null where it counts now. */
    notBefore: Date | null;
  };
  server: KeyPair;
  /** Whether the server's was made just now. */
  renewed: boolean;
}

/**
 * The authority and the server's certificate out of a folder; whatever is missing, near its end, or does not fit the names any more is made
 * anew and kept. Private keys are readable to the owner of the files alone.
 *
 * @param names every name and address under which devices call the server
 * @param commonName what devices show as the name of the authority
 */
export async function keptCertificates(
  folder: string,
  { names, commonName, now }: { names: readonly string[]; commonName: string; now: Date },
): Promise<Certificates> {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const files = { authority: pairOf(folder, 'authority'), server: pairOf(folder, 'server') };
  let authority = read(files.authority);
  // Tablets trust this one alone: a clock that was put back is no reason to make another.
  const isNew = !authority || !isGood(authority, now, AUTHORITY_RENEWED_BEFORE_DAYS);
  if (isNew) keep(files.authority, (authority = await makeAuthority(commonName, now)));
  let server = read(files.server);
  const renewed =
    !server || !isGood(server, now, RENEWED_BEFORE_DAYS) || startOf(server) > now || !fits(server, authority!, names);
  if (renewed) keep(files.server, (server = await makeServerCertificate(authority!, names, now)));
  const { certificate } = authority!;
  const { fingerprint256 } = new X509Certificate(certificate);
  const start = startOf(authority!);
  return {
    authority: {
      certificate,
      fileName: files.authority.certificate,
      fingerprint: fingerprint256,
      isNew,
      notBefore: start > now ? start : null,
    },
    server: server!,
    renewed,
  };
}

function pairOf(folder: string, name: string): KeyPair {
  return { certificate: join(folder, `${name}.crt`), key: join(folder, `${name}.key`) };
}

function read(files: KeyPair): KeyPair | undefined {
  if (!existsSync(files.certificate) || !existsSync(files.key)) return undefined;
  // A copy of the folder may have come back with its doors open.
  chmodSync(files.key, OWNER_ONLY);
  return { certificate: readFileSync(files.certificate, 'utf8'), key: readFileSync(files.key, 'utf8') };
}

function keep(files: KeyPair, pair: KeyPair): void {
  writeWhole(files.key, pair.key, OWNER_ONLY);
  writeWhole(files.certificate, pair.certificate, READABLE);
}

function isGood({ certificate, key }: KeyPair, now: Date, daysLeft: number): boolean {
  try {
    const read = new X509Certificate(certificate);
    const left = Date.parse(read.validTo) - now.getTime();
    return read.checkPrivateKey(createPrivateKey(key)) && left > daysLeft * 86_400_000;
  } catch {
    // Half a file, or something else: as good as none.
    return false;
  }
}

const startOf = ({ certificate }: KeyPair): Date => new Date(new X509Certificate(certificate).validFrom);

function fits(server: KeyPair, authority: KeyPair, names: readonly string[]): boolean {
  const read = new X509Certificate(server.certificate);
  return (
    read.verify(new X509Certificate(authority.certificate).publicKey) &&
    names.every((name) => (isIP(name) === 0 ? read.checkHost(name, { subject: 'never' }) : read.checkIP(name)) !== undefined)
  );
}

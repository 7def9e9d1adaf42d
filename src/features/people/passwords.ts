import { hash, randomBytes, scrypt, timingSafeEqual, type ScryptOptions } from 'node:crypto';
import { promisify } from 'node:util';

const scryptAsync = promisify<string, Buffer, number, ScryptOptions, Buffer>(scrypt);

// N = 2^16, r = 8: 64 MiB and about 0.2 s a try; the OWASP password storage cheat sheet names N = 2^17 or smaller with more lanes.
const COST = { N: 2 ** 16, r: 8, p: 2, maxmem: 128 * 1024 * 1024 } as const;
const KEY_BYTES = 32;

/** A memory-hard hash of a password, with its own salt and cost beside it. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(16);
  const key = await scryptAsync(password.normalize('NFC'), salt, KEY_BYTES, COST);
  return ['scrypt', COST.N, COST.r, COST.p, salt.toString('base64url'), key.toString('base64url')].join('$');
}

/** Whether a password fits a hash. Without a hash it takes as long and answers no, so that names cannot be found out. */
export async function passwordFits(password: string, hash: string | null): Promise<boolean> {
  const [, n, r, p, salt, key] = (hash ?? `scrypt$${COST.N}$${COST.r}$${COST.p}$AAAAAAAAAAAAAAAAAAAAAA$`).split('$');
  const given = await scryptAsync(password.normalize('NFC'), Buffer.from(salt!, 'base64url'), KEY_BYTES, {
    N: Number(n),
    r: Number(r),
    p: Number(p),
    maxmem: COST.maxmem,
  });
  const kept = Buffer.from(key!, 'base64url');
  return kept.length === KEY_BYTES && timingSafeEqual(kept, given);
}

/** A key to the door that nobody can guess: 256 bits. */
export function newSecret(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a session's or a token's secret. It has full entropy, so one fast hash is enough. */
export function hashSecret(secret: string): string {
  return hash('sha256', secret, 'base64url');
}

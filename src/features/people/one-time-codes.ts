import { randomBytes } from 'node:crypto';
import type { Db } from '../../platform/db/client.ts';
import { newId } from '../../platform/ids.ts';
import { hashSecret } from './passwords.ts';
import { insertCode, useCode } from './tablets.store.ts';

type Purpose = 'pin' | 'password';

/** A code that is good once, for so many hours; a newer one takes its place. Only its hash is kept. */
export function giveCode(
  tx: Db,
  at: Date,
  { personId, purpose, hours }: { personId: string; purpose: Purpose; hours: number },
): { code: string; expiresAt: string } {
  const code = randomBytes(9).toString('base64url');
  const expiresAt = new Date(at.getTime() + hours * 3_600_000).toISOString();
  insertCode(tx, { id: newId(at), personId, purpose, codeHash: hashSecret(code), expiresAt, createdAt: at.toISOString() });
  return { code, expiresAt };
}

/** Uses a code up. @returns whose it was; undefined for one that is wrong, used or too old */
export function takeCode(tx: Db, at: Date, { code, purpose }: { code: string; purpose: Purpose }): string | undefined {
  return useCode(tx, { codeHash: hashSecret(code.trim()), purpose, at: at.toISOString() });
}

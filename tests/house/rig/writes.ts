import { randomUUID } from 'node:crypto';
import { aPicture } from '../../support/pictures.ts';
import type { Caller } from './a-studio.ts';

/** A write under its key, to be sent as often as it takes. */
export interface Sent {
  key: string;
  path: string;
  body: object;
}

/** Each writes several tables: a commission its number, its words to be searched and a line of the journal; a use of solder the ledger and its costs. */
export function aWrite(n: number, lotId: string, wish?: string): Sent {
  const key = randomUUID();
  return n % 2 === 0
    ? { key, path: '/commissions', body: { title: `Beaker ${key}`, kind: 'own_stock', ...(wish && { wish }) } }
    : { key, path: '/stock-movements', body: { kind: 'use', lotId, quantityG: 0.0001, reason: key } };
}

let picture: Promise<Buffer> | undefined;

export async function aPhoto(commissionId: string): Promise<Sent> {
  const key = randomUUID();
  const body = new FormData();
  body.set('commissionId', commissionId);
  body.set('caption', key);
  body.set('showsPerson', 'false');
  body.set('file', new Blob([new Uint8Array(await (picture ??= aPicture().jpeg().toBuffer()))]), 'bench.jpg');
  return { key, path: '/photos', body };
}

export const send = (caller: Caller, { key, path, body }: Sent) => call(caller, path, { body, key });

export async function call({ address, token }: Caller, path: string, { body, key }: { body?: object; key?: string } = {}) {
  const isForm = body instanceof FormData;
  const headers = {
    authorization: `Bearer ${token}`,
    ...(body && !isForm && { 'content-type': 'application/json' }),
    ...(isForm && { confirm: '/file', 'confirm-reason': 'a small picture' }),
    ...(key && { 'idempotency-key': key }),
  };
  const reply = await fetch(`${address}/api/v1${path}`, {
    method: body ? 'POST' : 'GET',
    headers,
    ...(body && { body: isForm ? body : JSON.stringify(body) }),
  });
  const text = await reply.text();
  const isJson = reply.headers.get('content-type')?.includes('json');
  return { status: reply.status, body: (isJson ? JSON.parse(text) : {}) as { id: string; ok?: boolean; type?: string } };
}

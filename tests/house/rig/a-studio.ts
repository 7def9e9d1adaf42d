import { aSolderLot, aSolderProduct } from '../../support/stock.ts';
import type { RunningServer } from './a-server.ts';

export interface Caller {
  address: string;
  token: string;
}

/** Makes the first owner of a new book. @returns a token of theirs, which outlives the server */
export async function anOwner({ address, code }: RunningServer): Promise<string> {
  const signIn = { signInName: 'wren', password: 'a long password of the rig' };
  const body = JSON.stringify({ code, name: 'Wren', ...signIn });
  const made = await fetch(`${address}/api/v1/people/first-owner`, { method: 'POST', headers: JSON_BODY, body });
  if (made.status !== 201) throw new Error(`No owner: ${await made.text()}`);
  const session = await fetch(`${address}/api/v1/sessions`, { method: 'POST', headers: JSON_BODY, body: JSON.stringify(signIn) });
  const cookie = session.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
  const headers = { ...JSON_BODY, cookie };
  const token = await fetch(`${address}/api/v1/tokens`, { method: 'POST', headers, body: JSON.stringify({ name: 'rig' }) });
  return ((await token.json()) as { token: string }).token;
}

const JSON_BODY = { 'content-type': 'application/json' };

/** A lot with more solder than any rig uses. */
export async function aLot(caller: Caller): Promise<string> {
  const productId = await made(caller, '/solder-products', aSolderProduct());
  const receivedOn = new Date().toISOString().slice(0, 10);
  return made(caller, '/solder-lots', aSolderLot(productId, { receivedOn, quantityG: 480 }));
}

async function made({ address, token }: Caller, path: string, body: object): Promise<string> {
  const headers = { ...JSON_BODY, authorization: `Bearer ${token}` };
  const reply = await fetch(`${address}/api/v1${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
  if (reply.status !== 201) throw new Error(`${path} answers ${reply.status}: ${await reply.text()}`);
  return ((await reply.json()) as { id: string }).id;
}

export async function backUpInto({ address, token }: Caller, folder: string): Promise<void> {
  const headers = { ...JSON_BODY, authorization: `Bearer ${token}` };
  const settings = await fetch(`${address}/api/v1/settings`, { headers });
  const version = settings.headers.get('etag')!;
  const body = JSON.stringify({ backups: { folder } });
  const changed = await fetch(`${address}/api/v1/settings`, {
    method: 'PATCH',
    headers: { ...headers, 'if-match': version },
    body,
  });
  if (changed.status !== 200) throw new Error(`No folder of backups: ${await changed.text()}`);
}

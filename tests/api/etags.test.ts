import { expect, test } from 'vitest';
import { aSmallStudio, type SmallStudio } from '../support/a-small-studio.ts';
import { apiDocument, operationsOf, type Operation } from '../support/api-document.ts';
import { rawClient } from '../support/raw-request.ts';
import { soundBodies } from '../support/sound-bodies.ts';

const pathOf = ({ path }: Operation, { ids }: SmallStudio): string =>
  path.replace('{id}', ids[path.split('/')[1]!]?.[0] ?? '').replace('{jointId}', 'bezel');

/** Looked up, not stored under an id of its own; or nobody's to edit. */
const NOT_STORED = new Set(['GET /problems/:slug', 'GET /reports/:name', 'GET /backups/:id']);
const SINGLE = new Set(['GET /settings', 'GET /pieces/:id/design']);

test('everything that is stored answers with a strong ETag', async () => {
  const studio = await aSmallStudio();
  const operations = operationsOf(await apiDocument(studio.owner));
  const single = operations.filter(
    ({ route, method, path }) =>
      (method === 'GET' && path.endsWith('}') && !/^\/(documents|labels|exports)\//.test(path) && !NOT_STORED.has(route)) ||
      SINGLE.has(route),
  );
  expect(single.length).toBeGreaterThan(11);
  for (const operation of single) {
    const { status, headers } = await studio.owner.get(pathOf(operation, studio));
    expect([operation.route, status, headers['etag']]).toEqual([operation.route, 200, expect.stringMatching(/^"\d+"$/)]);
  }
});

test('an edit says which version it changes: 428 without, 412 with another, 200 and a new ETag with the right one', async () => {
  const studio = await aSmallStudio();
  const send = rawClient(studio.baseUrl);
  const bodies = await soundBodies(studio);
  const edits = operationsOf(await apiDocument(studio.owner)).filter(({ method }) => method === 'PATCH' || method === 'PUT');
  expect(edits.length).toBeGreaterThan(8);
  for (const operation of edits) {
    const path = pathOf(operation, studio);
    const body = JSON.stringify(bodies[operation.route]?.[0] ?? {});
    const edit = async (seen?: string) => {
      const headers = { authorization: `Bearer ${studio.ownerToken}`, 'content-type': 'application/json' };
      const answer = await send({
        method: operation.method,
        path: `/api/v1${path}`,
        headers: seen === undefined ? headers : { ...headers, 'if-match': seen },
        body,
      });
      const { type } = JSON.parse(answer.text) as { type?: string };
      return [operation.route, answer.status, type ?? answer.etag];
    };
    const before = (await studio.owner.get(path).expect(200)).headers['etag']!;
    expect(await edit()).toEqual([operation.route, 428, '/api/v1/problems/if-match-missing']);
    for (const other of ['"999"', '"0"', '"-1"', `W/${before}`, before.replaceAll('"', ''), `${before}, "999"`, '*', '']) {
      expect(await edit(other), other).toEqual([operation.route, 412, '/api/v1/problems/stale']);
    }
    expect((await studio.owner.get(path).expect(200)).headers['etag']).toBe(before);
    const [, status, after] = await edit(before);
    expect([operation.route, status]).toEqual([operation.route, 200]);
    expect((await studio.owner.get(path).expect(200)).headers['etag']).toBe(after);
    expect(after).not.toBe(before);
    expect(await edit(before)).toEqual([operation.route, 412, '/api/v1/problems/stale']);
  }
});

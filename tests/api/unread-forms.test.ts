import { expect, test } from 'vitest';
import { aDrawer } from '../support/at-the-bench.ts';
import { rawClient } from '../support/raw-request.ts';
import { startApp } from '../support/start-app.ts';

const BOUNDARY = 'a-boundary-of-the-tests';

/** Longer than what a socket holds, so that what is left unread stands in the way. */
const FILE = Buffer.alloc(600_000, 'x');

const FORM = Buffer.concat([
  Buffer.from(
    `--${BOUNDARY}\r\ncontent-disposition: form-data; name="file"; filename="bench.jpg"\r\ncontent-type: image/jpeg\r\n\r\n`,
  ),
  FILE,
  Buffer.from(`\r\n--${BOUNDARY}--\r\n`),
]);

const TYPES: Readonly<Record<string, string>> = {
  'as it should be': `multipart/form-data; boundary=${BOUNDARY}`,
  'without a boundary': 'multipart/form-data',
  'with an empty boundary': 'multipart/form-data; boundary=',
  'with the boundary of another': 'multipart/form-data; boundary=of-another-form',
  'that calls itself JSON': 'application/json',
  'of an address': 'application/x-www-form-urlencoded',
  'of no kind': '',
};

test.each(Object.entries(TYPES))(
  'a form %s that is refused lets the next request on its connection be answered',
  async (_what, type) => {
    const app = await startApp();
    const { baseUrl, services, actors } = app;
    const { products } = await aDrawer(app);
    const { token } = services.keys.addToken(actors.bench, { name: 'forms' });
    const send = rawClient(baseUrl);
    const headers = { authorization: `Bearer ${token}` };
    for (const path of ['/api/v1/photos', `/api/v1/solder-products/${products['hard']}/safety-sheet`, '/api/v1/nowhere']) {
      const refused = await send({ method: 'POST', path, headers: { ...headers, 'content-type': type }, body: FORM });
      expect([path, refused.status]).toEqual([path, expect.toSatisfy((status: number) => status >= 400 && status < 500)]);
      const next = await send({ method: 'GET', path: '/api/v1/pieces', headers });
      expect(next.status).toBe(200);
    }
  },
);

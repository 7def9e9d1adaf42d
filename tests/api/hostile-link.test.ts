import fc from 'fast-check';
import { expect, test } from 'vitest';
import { aFollowedCommission } from '../support/a-private-link.ts';
import { committedWrites } from '../support/committed-writes.ts';
import { INSIDE } from '../support/hold-answer.ts';
import { anOddQuery, anOddValueOf, aWrongId, oddHeaders } from '../support/hostile.ts';
import { rawClient, type RawRequest } from '../support/raw-request.ts';
import { wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';
import { holdInside, secretsOf } from '../support/what-stays-inside.ts';

/** Requests in all. */
const SENT = 1500;
/** What only the studio knows of this client. */
const OF_THE_CLIENT = /3 Secret Street|pays late|m@example\.org/;
/** Left in a page as it was sent, it would be run. */
const MARKUP = '<img src=x onerror=alert(1)>';
const FORM = 'application/x-www-form-urlencoded';

const aText = fc.oneof(
  fc.constantFrom('', MARKUP, `"'>${MARKUP}`, '__proto__', '\u0000', '\u202e', '{{7*7}}', '../../etc/passwd', 'x'.repeat(20_000)),
  fc.string({ unit: 'binary', maxLength: 200 }),
);
const aName = fc.oneof(
  fc.constantFrom('answer', 'version', 'read', 'words', '__proto__', 'constructor', 'more', ''),
  fc.string({ maxLength: 20 }),
);

/** A form with what the page would send, then more of it, or less. */
function aFormOf(fields: Record<string, string>): fc.Arbitrary<string> {
  const sound = Object.entries(fields);
  const some = fc.oneof(fc.constant(sound), fc.subarray(sound));
  const more = fc.oneof(fc.constant([]), fc.array(fc.tuple(aName, aText), { maxLength: 3 }));
  return fc.tuple(some, more).map(([kept, added]) => new URLSearchParams([...kept, ...added]).toString());
}

const aBody = fc.oneof(
  { weight: 3, arbitrary: aFormOf({ answer: 'accepted', version: '1', read: 'yes' }) },
  { weight: 3, arbitrary: aFormOf({ answer: 'declined', version: '7' }) },
  { weight: 3, arbitrary: aFormOf({ words: `Could it be smaller? ${MARKUP}` }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom('', '%', '%zz=1', '=', '&&&', 'words=%ed%a0%80', '{"words":"x"}', `words=${'y'.repeat(20_000)}`),
  },
);

/** Requests to the pages behind one link, or behind none. */
function aCall(base: string): fc.Arbitrary<RawRequest> {
  const secret = base.split('/').at(-1)!;
  const token = fc.oneof({ weight: 7, arbitrary: fc.constant(secret) }, { weight: 1, arbitrary: aWrongId });
  const aNumber = fc.oneof(fc.constantFrom('1', '2', '0', '-1', '1e9', '1.5', 'NaN', '0x1'), aWrongId);
  const behind = fc.oneof(
    fc.constant(''),
    aNumber.map((number) => `/letters/${number}`),
    aNumber.map((number) => `/care-cards/${number}`),
    aWrongId.map((id) => `/photos/${id}`),
    fc.constantFrom('/answers', '/messages'),
    aWrongId.map((id) => `/${id}`),
  );
  const query = fc.oneof(
    fc.constantFrom('', '', '?format=pdf', '?said=accepted', '?size=small'),
    fc.oneof(anOddQuery, anOddValueOf(['said', 'format', 'size'])).map((text) => `?${text}`),
  );
  const address = fc.ipV6();
  const odd = fc.constantFrom(undefined, undefined, undefined, 'POST', 'PUT', 'DELETE', 'PATCH', 'GET');
  return fc
    .record({ token, behind, query, address, odd, body: aBody, headers: fc.oneof(fc.constant({}), oddHeaders) })
    .map(({ token: who, behind: where, query: asked, address: from, odd: other, body, headers }): RawRequest => {
      // Mostly as the page would.
      const method = other ?? (/answers|messages/.test(where) ? 'POST' : 'GET');
      const path = `/link/${who}${where}${asked}`;
      const whole = { 'content-type': FORM, ...headers, 'x-forwarded-for': from };
      return method === 'GET' ? { method, path, headers: whole } : { method, path, headers: whole, body };
    });
}

test(
  'whatever is sent to the pages of a client, nothing of the studio is told, run or half-written',
  { timeout: 300_000 },
  async () => {
    // Each request from an address of its own: the limits of one address are held elsewhere.
    const app = await startApp({ trustedProxies: ['127.0.0.1'] });
    const { browser, quote } = await aFollowedCommission(app);
    const { net, tax, gross, deposit } = (await app.desk.get(`/quotes/${quote.id}`)).body;
    const told = [net, tax, gross, deposit].map(({ amountMinor }) => amountMinor as number);
    const secrets = await secretsOf(app.owner, quote.id, told);
    const send = rawClient(app.baseUrl);
    const writes = committedWrites(app);
    const statuses: Record<number, number> = {};
    for (const asked of fc.sample(aCall(browser.base), { seed: 1, numRuns: SENT })) {
      const before = writes();
      const { status, contentType, text } = await send(asked);
      const what = `${status} to ${JSON.stringify({ ...asked, body: asked.body?.slice(0, 300) })}`;
      statuses[status] = (statuses[status] ?? 0) + 1;
      expect(status, what).toBeLessThan(500);
      expect(text, what).not.toMatch(INSIDE);
      expect(text, what).not.toMatch(OF_THE_CLIENT);
      expect(text, what).not.toContain(MARKUP);
      if (contentType.startsWith('text/html') && status === 200) holdInside(wordsOf(text), secrets);
      if (status >= 400) expect([what, writes()]).toEqual([what, before]);
      // What is behind a link is told to nobody with another; ".." leads to the page of the studio.
      if (!asked.path.startsWith(browser.base) && !asked.path.startsWith('/link/..'))
        expect(status, what).toBeGreaterThanOrEqual(400);
    }
    for (const status of [200, 303, 404, 409, 413, 415, 422])
      expect([status, (statuses[status] ?? 0) > 3]).toEqual([status, true]);
  },
);

import supertest from 'supertest';
import { aClient } from './a-commission.ts';
import { aPricedPendant, aSentQuote, typePrices, type Quote } from './a-quote.ts';
import { readPdf, type ReadPdf } from './read-pdf.ts';
import type { TestApp } from './start-app.ts';

/** A client with nothing but an address, and a browser without script. */
export interface Browser {
  base: string;
  get: (path?: string) => supertest.Test;
  /** Sends a form. */
  send: (path: string, fields: Record<string, string>) => supertest.Test;
}

export function browserAt({ baseUrl }: Pick<TestApp, 'baseUrl'>, base: string): Browser {
  const agent = supertest(baseUrl);
  return {
    base,
    get: (path = '') => agent.get(base + path),
    send: (path, fields) =>
      agent
        .post(base + path)
        .type('form')
        .send(fields),
  };
}

export interface Followed {
  commissionId: string;
  pieceId: string;
  quote: Quote;
  linkId: string;
  browser: Browser;
}

/** A commission with an offer that was sent, and its client at the page of a private link. */
export async function aFollowedCommission(
  app: TestApp,
  { name = 'Millrace', language = 'en', ...commission }: { name?: string; language?: string } & Record<string, unknown> = {},
): Promise<Followed> {
  const { desk } = app;
  const clientId = await aClient(desk, name);
  const post = { language, postAddress: '3 Secret Street', notes: 'pays late', email: 'm@example.org' };
  await desk.patch(`/clients/${clientId}`, post, 1).expect(200);
  const { commissionId, pieceId } = await aPricedPendant(app, { ...commission, clientId });
  await typePrices(app, { privateLinks: { on: true } });
  const quote = await aSentQuote(app, commissionId);
  return { commissionId, pieceId, quote, ...(await aLink(app, commissionId)) };
}

export async function aLink(app: TestApp, commissionId: string): Promise<{ linkId: string; browser: Browser }> {
  const { body } = await app.desk.post('/private-links', { commissionId }).expect(201);
  return { linkId: body.id, browser: browserAt(app, body.path) };
}

/** What a PDF says that a client gets. */
export async function pdfOf(browser: Browser, path: string): Promise<ReadPdf> {
  const { body } = await browser
    .get(path)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .expect(200)
    .expect('content-type', 'application/pdf');
  return readPdf(body as Buffer);
}

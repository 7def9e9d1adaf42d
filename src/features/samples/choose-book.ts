import type { FastifyInstance, FastifyReply } from 'fastify';
import { Problem } from '../../platform/http/problem.ts';
import type { SampleService } from './samples.service.ts';

/** Leads to the sample of a browser; no script reads it. */
export const SAMPLE_COOKIE = 'hearthbook_sample';
/** Tells the page which book it is in, and so under which names it keeps things. It opens nothing. */
const BOOK_COOKIE = 'hearthbook_book';
/** What a page calls the studio's own book. */
const OWN = 'own';
const OF_THE_SERVER = /^\/api\/v1\/samples(\/|\?|$)/;
const LOOK_EVERY_MS = 10 * 60_000;

/**
 * Answers each request from the book that its browser is in. Call it after cookies are read and before anybody asks who it is; the routes
 * of samples themselves stay with the server's own book.
 */
export function chooseBook(http: FastifyInstance, samples: SampleService): void {
  http.addHook('onRequest', (request, reply, done) => {
    if (OF_THE_SERVER.test(request.url)) return done();
    const secret = request.cookies[SAMPLE_COOKIE];
    const sample = samples.find(secret);
    const open = sample?.state === 'ready' ? sample.opened : undefined;
    const book = open ? sample!.name : OWN;
    if (!open) {
      if (secret !== undefined && !sample) clearBookCookies(reply);
      else if (request.cookies[BOOK_COOKIE] !== undefined) reply.clearCookie(BOOK_COOKIE, { path: '/' });
    }
    const meant = request.headers['book'];
    if (meant !== undefined && meant !== book) {
      // Loaded again, the page knows where it is.
      if (open) tellBook(reply, book);
      return done(
        new Problem('other-book', 'Nothing was done: this page is of another book than the one that is open here. Load it again'),
      );
    }
    if (!open) return done();
    samples.use(secret!);
    reply.hijack();
    open.answer(request.raw, reply.raw);
  });
  const looking = setInterval(() => void samples.endIdle(), LOOK_EVERY_MS);
  looking.unref();
  http.addHook('preClose', async () => {
    clearInterval(looking);
    await samples.endAll();
  });
}

/** Which book the page will be in when it is loaded next. @param book the name of the sample */
export function tellBook(reply: FastifyReply, book: string): void {
  reply.setCookie(BOOK_COOKIE, book, { path: '/', sameSite: 'lax' });
}

export function clearBookCookies(reply: FastifyReply): void {
  for (const name of [SAMPLE_COOKIE, BOOK_COOKIE]) reply.clearCookie(name, { path: '/' });
}

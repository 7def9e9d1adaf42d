import { fork } from 'node:child_process';
import { setPriority } from 'node:os';
import { fileURLToPath } from 'node:url';
import { buildApp } from './app.ts';
import { SAMPLE_SIGN_IN, type SampleMessage, type SampleStudio } from './features/samples/index.ts';
import { systemClock } from './platform/clock.ts';
import { openBook } from './platform/db/client.ts';
import { SESSION_COOKIE } from './platform/http/sign-in.ts';

/** The invented studio is known here as a program alone: it makes its book by calling the same services that the page reaches. */
const PROGRAM = fileURLToPath(new URL('../seed/sample.ts', import.meta.url));
/** Behind whatever the studio itself asks meanwhile. */
const LOW_PRIORITY = 5;

/** A sample studio in memory: made by a process of its own, opened by a second instance of this server that listens nowhere. */
export const sampleStudio: SampleStudio = {
  make: (onStep, signal) =>
    new Promise((made, failed) => {
      const maker = fork(PROGRAM, [], {
        execArgv: ['--max-semi-space-size=4'],
        serialization: 'advanced',
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
        signal,
      });
      if (maker.pid !== undefined) setPriority(maker.pid, LOW_PRIORITY);
      maker.on('message', (message: SampleMessage) => {
        if ('step' in message) onStep(message.step);
        else made(message.book);
      });
      maker.once('error', failed);
      maker.once('exit', (code) => failed(new Error(`the sample studio was not made: its program ended with ${code}`)));
    }),

  async open(book) {
    const { db, close } = openBook(Buffer.from(book), systemClock.now());
    const cookieJar = new Map<string, string>();
    const { http, services } = await buildApp({ db, clock: systemClock }, { cookieJar });
    await http.ready();
    const { secret } = await services.keys.signIn({ signInName: SAMPLE_SIGN_IN.names[0], password: SAMPLE_SIGN_IN.password });
    cookieJar.set(SESSION_COOKIE, secret);
    return {
      answer: (request, response) => http.routing(request, response),
      close: async () => {
        await http.close();
        close();
      },
    };
  },
};

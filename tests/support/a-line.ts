import { createServer, connect, type AddressInfo, type Socket } from 'node:net';
import { onTestFinished } from 'vitest';
import type { TestApp } from './start-app.ts';

/**
 * A line to a server that can be cut: nothing comes through then, whoever in the browser asks. A browser's own switch, and what
 * intercepts its requests, let one of its service worker through now and then while a page is loaded anew.
 *
 * @returns the server at the other end of the line
 */
export async function aLine(app: TestApp): Promise<{ app: TestApp; cut: () => Promise<void>; mend: () => Promise<void> }> {
  const sockets = new Set<Socket>();
  const line = createServer((near) => {
    const far = connect(Number(new URL(app.baseUrl).port), '127.0.0.1');
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(one);
      one.on('error', () => other.destroy());
      one.once('close', () => {
        sockets.delete(one);
        other.destroy();
      });
      one.pipe(other);
    }
  });
  const listen = (port: number) => new Promise<void>((resolve) => line.listen(port, '127.0.0.1', resolve));
  await listen(0);
  const { port } = line.address() as AddressInfo;
  const cut = () =>
    new Promise<void>((resolve) => {
      line.close(() => resolve());
      for (const socket of sockets) socket.destroy();
    });
  onTestFinished(cut);
  return { app: { ...app, baseUrl: `http://127.0.0.1:${port}` }, cut, mend: () => listen(port) };
}

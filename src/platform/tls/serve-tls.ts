import { createServer, type Server } from 'node:https';
import type { AddressInfo, Socket } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { LAST_ANSWERS_MS, patience, unreadRequests } from '../http/unread-requests.ts';
import type { KeyPair } from './certificates.ts';

/** The same routes over TLS, beside the plain HTTP of the machine itself; it closes before they do. Not listening yet. */
export function tlsServerOf(http: FastifyInstance, server: KeyPair): Server {
  const tls = createServer({ cert: server.certificate, key: server.key }, (request, response) => http.routing(request, response));
  tls.requestTimeout = patience.requestTimeout;
  tls.keepAliveTimeout = patience.keepAliveTimeout;
  tls.setTimeout(patience.connectionTimeout);
  tls.on('clientError', (error, socket) => unreadRequests.clientErrorHandler(error, socket as Socket));
  http.addHook('preClose', async () => {
    if (!tls.listening) return;
    setTimeout(() => tls.closeAllConnections(), LAST_ANSWERS_MS).unref();
    await new Promise((closed) => tls.close(closed));
  });
  return tls;
}

/** @returns the port it listens on */
export function listenTls(tls: Server, { host, port }: { host: string; port: number }): Promise<number> {
  return new Promise((listening, failed) => {
    tls.once('error', failed);
    tls.listen({ host, port }, () => {
      tls.off('error', failed);
      listening((tls.address() as AddressInfo).port);
    });
  });
}

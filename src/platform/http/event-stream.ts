import { PassThrough, type Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';

export interface StreamEvent {
  event: string;
  id: string;
  data: unknown;
}

export interface EventStream {
  /** What the reply sends. */
  body: Readable;
  /** Leaves it out when the one who listens is slow: the next one says more. */
  send: (event: StreamEvent) => void;
  end: (last: StreamEvent) => void;
  /** Called when nobody listens any more. */
  onClose: (call: () => void) => void;
}

/** When a browser that lost the line tries again. */
const RETRY_MS = 2000;
const HEARTBEAT_MS = 15_000;

/**
 * A reply of server-sent events, with a comment now and then that keeps the line open.
 *
 * @source WHATWG, HTML Living Standard, 9.2.5 (parsing) and 9.2.7 (authoring notes: a comment every 15 seconds or so)
 */
export function openEventStream(reply: FastifyReply): EventStream {
  const body = new PassThrough();
  body.write(`retry: ${RETRY_MS}\n\n`);
  const heartbeat = setInterval(() => body.write(':\n\n'), HEARTBEAT_MS).unref();
  reply.raw.once('close', () => {
    clearInterval(heartbeat);
    body.destroy();
  });
  reply.type('text/event-stream').header('cache-control', 'no-store');
  return {
    body,
    send: (event) => {
      if (!body.writableNeedDrain && !body.writableEnded) body.write(inLines(event));
    },
    end: (last) => body.end(inLines(last)),
    onClose: (call) => reply.raw.once('close', call),
  };
}

/** JSON has no line of its own to break. */
function inLines({ event, id, data }: StreamEvent): string {
  return `event: ${event}\nid: ${id}\ndata: ${JSON.stringify(data)}\n\n`;
}

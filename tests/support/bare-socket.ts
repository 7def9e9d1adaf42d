import { connect, type Socket } from 'node:net';
import { once } from 'node:events';

/** A connection that says what it is told, byte by byte, and hears until the other side closes. */
export interface BareSocket {
  socket: Socket;
  say: (bytes: string | Buffer) => void;
  /** All that came, once the server has closed the connection. */
  closed: Promise<string>;
  heard: () => string;
}

export async function bareSocket(baseUrl: string): Promise<BareSocket> {
  const { hostname, port } = new URL(baseUrl);
  const socket = connect({ port: Number(port), host: hostname, allowHalfOpen: true });
  let text = '';
  socket.setEncoding('utf8');
  socket.on('data', (chunk: string) => (text += chunk));
  // A server that has had enough may reset the line while something is still being said.
  socket.on('error', () => {});
  socket.on('end', () => socket.end());
  const closed = once(socket, 'close').then(() => text);
  await once(socket, 'connect');
  return { socket, say: (bytes) => void (socket.writable && socket.write(bytes)), closed, heard: () => text };
}

/** The replies in what was heard, one after the other: status, headers and body. One without a length is the last. */
export function repliesIn(heard: string): { status: number; headers: string; body: string }[] {
  const replies = [];
  let rest = heard;
  while (rest !== '') {
    const [headers = '', ...after] = rest.split('\r\n\r\n');
    const said = /^content-length: (\d+)/im.exec(headers);
    const left = after.join('\r\n\r\n');
    const length = said ? Number(said[1]) : left.length;
    const body = left.slice(0, length);
    replies.push({ status: Number(headers.slice(9, 12)), headers, body });
    rest = rest.slice(headers.length + 4 + length);
  }
  return replies;
}

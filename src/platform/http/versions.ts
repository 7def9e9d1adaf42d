import type { FastifyReply, FastifyRequest } from 'fastify';
import { Problem } from './problem.ts';

/** The ETag of a stored thing is its version. */
export function sendVersion(reply: FastifyReply, version: number): void {
  reply.header('etag', `"${version}"`);
}

/** The version the sender read, from If-Match. */
export function versionSeen(request: FastifyRequest): number {
  const header = request.headers['if-match'];
  if (header === undefined)
    throw new Problem('if-match-missing', 'Send If-Match with the ETag you read, so that nobody else’s change is lost');
  const version = /^"(\d+)"$/.exec(header)?.[1];
  if (version === undefined)
    throw new Problem('stale', `If-Match is ${header}: send the ETag just as it came, in its quotes, such as "3"`);
  return Number(version);
}

export function holdToVersion(what: string, current: number, seen: number): void {
  if (current !== seen)
    throw new Problem('stale', `Cannot change the ${what}: it is at version ${current}, you read version ${seen}`, {
      version: current,
    });
}

import type { FastifyReply, FastifyRequest } from 'fastify';
import type { PictureFile } from './photos.store.ts';

/** A picture for those who may see it, and for no cache but their own browser's, which asks again each time. */
export function sendPicture(request: FastifyRequest, reply: FastifyReply, { bytes, etag }: PictureFile): FastifyReply {
  reply
    .header('etag', etag)
    .header('x-content-type-options', 'nosniff')
    .header('content-security-policy', "default-src 'none'; sandbox")
    .header('content-disposition', 'inline');
  // The page of a client is kept by no cache at all.
  if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'private, no-cache');
  const seen = request.headers['if-none-match']?.split(',').map((one) => one.trim().replace(/^W\//, '')) ?? [];
  if (seen.includes(etag) || seen.includes('*')) {
    reply.removeHeader('content-type');
    return reply.code(304).send();
  }
  return reply.type('image/jpeg').send(bytes);
}

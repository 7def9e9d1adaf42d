import { createHash } from 'node:crypto';
import { and, eq } from 'drizzle-orm';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Clock } from '../clock.ts';
import type { Db } from '../db/client.ts';
import { idempotencyKeys } from '../db/tables.ts';
import { actorOf } from './actor.ts';
import { invalidFields, Problem } from './problem.ts';

export interface Once {
  db: Db;
  clock: Clock;
}

/**
 * Runs a use case once for each Idempotency-Key: the key, its answer and what the use case writes are one transaction.
 * The same key with the same request gets the same answer again; with another request it is refused.
 *
 * @param needed moves must carry a key, since they may be sent twice; elsewhere it is the caller's choice
 */
export function once<Reply>(
  { db, clock }: Once,
  { request, reply, status, needed = false }: { request: FastifyRequest; reply: FastifyReply; status: number; needed?: boolean },
  useCase: () => Reply,
): Reply {
  const key = request.headers['idempotency-key'];
  if (key === undefined) {
    if (needed) throw invalidFields([{ pointer: '', detail: 'Send the header Idempotency-Key: this may arrive twice.' }]);
    reply.code(status);
    return useCase();
  }
  if (typeof key !== 'string' || !/^[\w.:-]{8,100}$/.test(key)) {
    throw invalidFields([{ pointer: '', detail: 'Idempotency-Key must be 8 to 100 letters, digits, dots, colons or dashes.' }]);
  }
  const { personId } = actorOf(request);
  const requestHash = createHash('sha256')
    .update(`${request.method} ${request.url}\n${JSON.stringify(request.body ?? null)}`)
    .digest('hex');
  return db.transaction((tx) => {
    const kept = tx
      .select()
      .from(idempotencyKeys)
      .where(and(eq(idempotencyKeys.personId, personId), eq(idempotencyKeys.key, key)))
      .get();
    if (kept) {
      if (kept.requestHash !== requestHash) {
        throw new Problem('idempotency-key-reused', `Idempotency-Key ${key} was sent before, with another request`);
      }
      reply.code(kept.status);
      return kept.reply as Reply;
    }
    reply.code(status);
    const answer = useCase();
    tx.insert(idempotencyKeys)
      .values({ personId, key, requestHash, status, reply: answer, createdAt: clock.now().toISOString() })
      .run();
    return answer;
  });
}

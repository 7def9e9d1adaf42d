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
  const key = keyOf(request);
  if (key === undefined) {
    if (needed) throw invalidFields([{ pointer: '', detail: 'Send the header Idempotency-Key: this may arrive twice.' }]);
    reply.code(status);
    return useCase();
  }
  return db.transaction((tx) => {
    const kept = answerKept(tx, { request, reply });
    if (kept !== undefined) return kept as Reply;
    reply.code(status);
    const answer = useCase();
    tx.insert(idempotencyKeys)
      .values({
        personId: actorOf(request).personId,
        key,
        requestHash: hashOf(request),
        status,
        reply: answer,
        createdAt: clock.now().toISOString(),
      })
      .run();
    return answer;
  });
}

/** The answer this very request got before, under its key; for work that is done before the use case is run. */
export function answerKept(db: Db, { request, reply }: { request: FastifyRequest; reply: FastifyReply }): unknown {
  const key = keyOf(request);
  if (key === undefined) return undefined;
  const { personId } = actorOf(request);
  const kept = db
    .select()
    .from(idempotencyKeys)
    .where(and(eq(idempotencyKeys.personId, personId), eq(idempotencyKeys.key, key)))
    .get();
  if (!kept) return undefined;
  if (kept.requestHash !== hashOf(request)) {
    throw new Problem('idempotency-key-reused', `Idempotency-Key ${key} was sent before, with another request`);
  }
  reply.code(kept.status);
  return kept.reply;
}

function keyOf(request: FastifyRequest): string | undefined {
  const key = request.headers['idempotency-key'];
  if (key !== undefined && (typeof key !== 'string' || !/^[\w.:-]{8,100}$/.test(key))) {
    throw invalidFields([{ pointer: '', detail: 'Idempotency-Key must be 8 to 100 letters, digits, dots, colons or dashes.' }]);
  }
  return key;
}

function hashOf(request: FastifyRequest): string {
  return createHash('sha256')
    .update(`${request.method} ${request.url}\n${JSON.stringify(request.body ?? null)}`)
    .digest('hex');
}

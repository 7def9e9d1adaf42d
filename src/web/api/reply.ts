import type { paths } from './api-schema.d.ts';

type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';
type Responses<P extends keyof paths, M extends Method> = paths[P] extends Record<M, { responses: infer R }> ? R : never;
type Json<R> = R extends { content: { 'application/json': infer Body } } ? Body : never;

/** What a call answers when it succeeds, such as ReplyOf<'/api/v1/pieces/{id}'>. */
export type ReplyOf<P extends keyof paths, M extends Method = 'get'> =
  Responses<P, M> extends infer R ? (200 extends keyof R ? Json<R[200]> : 201 extends keyof R ? Json<R[201]> : never) : never;

/** What a call takes as its body. */
export type BodyOf<P extends keyof paths, M extends Method> =
  paths[P] extends Record<M, { requestBody?: infer R }> ? Json<Exclude<R, undefined>> : never;

/** One thing of a list. */
export type ItemOf<P extends keyof paths> = ReplyOf<P> extends { items: (infer Item)[] } ? Item : never;

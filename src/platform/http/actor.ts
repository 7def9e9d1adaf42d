import type { FastifyRequest } from 'fastify';
import type { Confirmation, Role } from '../db/json-columns.ts';
import { Problem } from './problem.ts';

/** Who is asking, and what they have confirmed in this request. */
export interface Actor {
  personId: string;
  name: string;
  /** With what each role includes: owner all others, bench student. */
  roles: ReadonlySet<Role>;
  tutor: boolean;
  deviceId: string | null;
  confirmed: Confirmation | null;
  /** The session or token that says who asks. */
  keyId?: string;
}

/** Who wrote a line, when; nobody: the server itself. */
export interface WrittenBy {
  personId: string | null;
  at: Date;
  deviceId: string | null;
  confirmed: Confirmation | null;
}

/** @param deviceId of what a device sent later; else that of the request */
export function writtenBy(actor: Actor, at: Date, deviceId = actor.deviceId): WrittenBy {
  return { personId: actor.personId, at, deviceId, confirmed: actor.confirmed };
}

/** What the server does by itself, when the clock says so. */
export function writtenByServer(at: Date): WrittenBy {
  return { personId: null, at, deviceId: null, confirmed: null };
}

const INCLUDES: Readonly<Record<Role, readonly Role[]>> = {
  owner: ['owner', 'bench', 'desk', 'student'],
  bench: ['bench', 'student'],
  desk: ['desk'],
  student: ['student'],
};

/** The roles a set of roles amounts to. */
export function effectiveRoles(roles: readonly Role[]): ReadonlySet<Role> {
  return new Set(roles.flatMap((role) => INCLUDES[role]));
}

/** At the bench or the desk; who only learns here knows of practice pieces alone, and writes no stock. */
export function worksHere({ roles }: Pick<Actor, 'roles'>): boolean {
  return roles.has('bench') || roles.has('desk');
}

/** @throws {Problem} forbidden to everybody else @param what as after "Cannot" */
export function holdToOwner({ roles }: Pick<Actor, 'roles'>, what: string): void {
  if (!roles.has('owner')) throw new Problem('forbidden', `Cannot ${what}: that is for the owner`);
}

// Kept beside the request, not on it: decorating the request type would promise an actor to every route, also the open ones.
const actors = new WeakMap<FastifyRequest, Actor>();

export function setActor(request: FastifyRequest, actor: Actor): void {
  actors.set(request, actor);
}

export function actorOf(request: FastifyRequest): Actor {
  const actor = actors.get(request);
  if (!actor) throw new Problem('not-signed-in', 'Sign in, or send a bearer token');
  return actor;
}

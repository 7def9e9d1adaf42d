import type { Services } from '../src/services.ts';
import { actorFrom } from '../src/features/people/keys.service.ts';
import { listPeople } from '../src/features/people/people.store.ts';
import type { Db } from '../src/platform/db/client.ts';
import type { Role } from '../src/platform/db/json-columns.ts';
import type { Actor } from '../src/platform/http/actor.ts';

const ROLES = ['owner', 'bench', 'desk', 'student'] as const;

/** One person of each role that somebody has, the owner first. */
export function rolesOf(db: Db): { role: Role; actor: Actor }[] {
  const people = listPeople(db, { limit: 200 });
  return ROLES.flatMap((role) => {
    const person = people.find(({ roles }) => roles.includes(role));
    return person ? [{ role, actor: actorFrom(person) }] : [];
  });
}

/** Lets each of them sign in by the name of their role. */
export async function signInsFor(
  services: Services,
  actors: readonly { role: Role; actor: Actor }[],
  password: string,
): Promise<void> {
  for (const { role, actor } of actors) {
    const { id, version } = services.people.get(actor.personId);
    await services.people.change(actors[0]!.actor, id, version, { signInName: role, password });
  }
}

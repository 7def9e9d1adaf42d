import type { Role } from '../../platform/db/json-columns.ts';
import { effectiveRoles } from '../../platform/http/actor.ts';

const BENCH_WORK: readonly Role[] = ['bench', 'student'];

/** What a person may do by a PIN alone: the work at the bench, whatever else they may do when they sign in. */
export function benchRoles(roles: readonly Role[]): ReadonlySet<Role> {
  const all = effectiveRoles(roles);
  return new Set(BENCH_WORK.filter((role) => all.has(role)));
}

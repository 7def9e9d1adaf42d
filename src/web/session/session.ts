import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { ShownUnits } from '../units/shown-units.ts';

export type RoleName = 'owner' | 'bench' | 'desk' | 'student';

/** Who holds the page, and how they read it. */
export interface Session {
  personId: string;
  name: string;
  /** With what each role includes. */
  roles: readonly RoleName[];
  tutor: boolean;
  /** By a PIN at a tablet that several share; null: on a device of one's own. */
  tablet: { name: string } | null;
  language: string;
  units: ShownUnits;
  studio: { name: string; currency: string; timeZone: string; language: string };
  /** Reads it all again: after a change of preferences. */
  reload: () => void;
  signOut: () => Promise<void>;
}

export const SessionContext = createContext<Session | undefined>(undefined);

/** @throws outside a page that is signed in */
export function useSession(): Session {
  const session = useContext(SessionContext);
  if (!session) throw new Error('nobody is signed in');
  return session;
}

export function may(session: Session, ...roles: readonly RoleName[]): boolean {
  return roles.some((role) => session.roles.includes(role));
}

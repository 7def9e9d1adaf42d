import { forget, keep, readKept } from '../offline/kept.ts';
import type { Session } from './session.ts';

const PLACE = 'session';
export type KeptSession = Omit<Session, 'reload' | 'signOut'>;

/** Who was signed in here last, so that the bench opens with the network gone; the book still asks for the session itself. */
export function keptSession(): KeptSession | undefined {
  return readKept(PLACE) as KeptSession | undefined;
}

/** @param session undefined when the book says that nobody is signed in */
export function keepSession(session: KeptSession | undefined): void {
  if (session) keep(PLACE, session);
  else forget(PLACE);
}

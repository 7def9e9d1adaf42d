import { idempotencyKey } from '../api/device.ts';
import { keep, readKept } from './kept.ts';

/** Of a device, not of a person: it goes on through a reload, and while the tablet is locked. */
export interface Timer {
  id: string;
  name: string;
  seconds: number;
  /** By the clock of this device. */
  endsAtMs: number;
}

const PLACE = 'timers';
const QUIET = 'timers-quiet';
const heard = new Set<() => void>();
const tell = () => heard.forEach((listener) => listener());
// Another window of the device has set or stopped one.
window.addEventListener('storage', tell);

/** Those that run or ring, the next to ring first. */
export function timers(): Timer[] {
  return ((readKept(PLACE) as Timer[] | undefined) ?? []).toSorted((a, b) => a.endsAtMs - b.endsAtMs);
}

export function startTimer(name: string, seconds: number): void {
  keep(PLACE, [...timers(), { id: idempotencyKey(), name, seconds, endsAtMs: Date.now() + seconds * 1000 }]);
  tell();
}

export function stopTimer(id: string): void {
  keep(
    PLACE,
    timers().filter((one) => one.id !== id),
  );
  tell();
}

/** Whether a timer of this device shows itself only, without sound and vibration. */
export function areTimersQuiet(): boolean {
  return readKept(QUIET) === true;
}

export function setTimersQuiet(quiet: boolean): void {
  keep(QUIET, quiet);
  tell();
}

/** Tells of every change, until the function that comes back is called. */
export function listenToTimers(listener: () => void): () => void {
  heard.add(listener);
  return () => void heard.delete(listener);
}

import { placeHere } from './book.ts';

/** What this device keeps through a reload and without a network; undefined where there is nothing to read. */
export function readKept(place: string): unknown {
  const text = localStorage.getItem(placeHere(place));
  if (text === null) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    forget(place);
    return undefined;
  }
}

export function keep(place: string, value: unknown): void {
  localStorage.setItem(placeHere(place), JSON.stringify(value));
}

export function forget(place: string): void {
  localStorage.removeItem(placeHere(place));
}

/** The ends of all places that begin so. */
export function placesOf(beginning: string): string[] {
  const whole = placeHere(beginning);
  return Object.keys(localStorage).flatMap((one) => (one.startsWith(whole) ? [one.slice(whole.length)] : []));
}

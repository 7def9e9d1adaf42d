import { useEffect, useReducer } from 'preact/hooks';
import { listenToTimers, timers, type Timer } from '../offline/timers.ts';

/** The timers of this device with what is left of each, drawn anew every second while there are any. */
export function useTimers(): { timer: Timer; leftS: number }[] {
  const [, again] = useReducer((count: number) => count + 1, 0);
  const known = timers();
  useEffect(() => listenToTimers(() => again(undefined)), []);
  useEffect(() => {
    if (known.length === 0) return undefined;
    const ticking = setInterval(() => again(undefined), 500);
    return () => clearInterval(ticking);
  }, [known.length === 0]);
  return known.map((timer) => ({ timer, leftS: Math.max(0, Math.ceil((timer.endsAtMs - Date.now()) / 1000)) }));
}

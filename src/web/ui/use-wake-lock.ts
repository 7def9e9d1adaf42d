import { useEffect } from 'preact/hooks';

/** Keeps the screen lit while the page is looked at, where the browser can. */
export function useWakeLock(): void {
  useEffect(() => {
    let held: WakeLockSentinel | undefined;
    let ended = false;
    const hold = async () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      try {
        held = await navigator.wakeLock.request('screen');
        if (ended) await held.release();
      } catch {
        // Refused, such as for a low battery: the screen goes dark as it would.
      }
    };
    const listener = () => void hold();
    listener();
    document.addEventListener('visibilitychange', listener);
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', listener);
      void held?.release();
    };
  }, []);
}

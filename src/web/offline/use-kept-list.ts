import { useEffect, useState } from 'preact/hooks';
import { keep, readKept } from './kept.ts';

/** So often it is asked for again while somebody looks. */
const ROUND_MS = 60_000;

/** A short list of the book, as it was told last: kept on the device, so that it is there without a network. */
export function useKeptList<T>(place: string, ask: () => Promise<T[]>): T[] {
  const [list, setList] = useState(() => (readKept(place) as T[] | undefined) ?? []);
  useEffect(() => {
    let current = true;
    const take = () => {
      if (document.visibilityState === 'hidden') return;
      ask().then(
        (told) => {
          if (!current) return;
          keep(place, told);
          setList(told);
        },
        // As it was told last.
        () => undefined,
      );
    };
    take();
    const timer = setInterval(take, ROUND_MS);
    return () => {
      current = false;
      clearInterval(timer);
    };
  }, [place]);
  return list;
}

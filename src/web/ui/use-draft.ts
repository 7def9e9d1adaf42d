import { useCallback, useState } from 'preact/hooks';
import { forget, keep, readKept } from '../offline/kept.ts';

/**
 * Work that is not saved yet, kept on this device through a reload until it is saved or dropped.
 *
 * @param key what it is of, such as "design:<piece>"; with the version it began from, so that it is never laid over another
 */
export function useDraft<T>(
  key: string,
  initial: T,
): { draft: T; isChanged: boolean; change: (draft: T) => void; drop: () => void } {
  const place = `draft:${key}`;
  const [state, setState] = useState<{ place: string; draft: T | undefined }>(() => ({
    place,
    draft: readKept(place) as T | undefined,
  }));
  const kept = state.place === place ? state.draft : (readKept(place) as T | undefined);
  const change = useCallback(
    (draft: T) => {
      keep(place, draft);
      setState({ place, draft });
    },
    [place],
  );
  const drop = useCallback(() => {
    forget(place);
    setState({ place, draft: undefined });
  }, [place]);
  return { draft: kept ?? initial, isChanged: kept !== undefined, change, drop };
}

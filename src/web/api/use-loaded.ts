import { useCallback, useEffect, useRef, useState } from 'preact/hooks';

export type Loaded<T> = {
  /** What came last; it stays while it is asked for again. */
  value: T | undefined;
  error: Error | undefined;
  loading: boolean;
  reload: () => void;
  /** Shows what a change answered, without asking again. */
  put: (value: T) => void;
};

/**
 * What a page shows from the server, asked again whenever one of its keys changes; an answer that comes too late is dropped.
 *
 * @param load gets a signal that ends the request
 */
export function useLoaded<T>(load: (signal: AbortSignal) => Promise<T>, keys: readonly unknown[]): Loaded<T> {
  const [state, setState] = useState<{ value?: T; error?: Error; loading: boolean }>({ loading: true });
  const [round, setRound] = useState(0);
  const latest = useRef(load);
  latest.current = load;
  useEffect(() => {
    const ending = new AbortController();
    setState(({ value }) => ({ ...(value !== undefined && { value }), loading: true }));
    latest
      .current(ending.signal)
      .then((value) => !ending.signal.aborted && setState({ value, loading: false }))
      .catch(
        (error: unknown) =>
          !ending.signal.aborted &&
          setState(({ value }) => ({ ...(value !== undefined && { value }), error: error as Error, loading: false })),
      );
    return () => ending.abort();
  }, [...keys, round]);
  const reload = useCallback(() => setRound((before) => before + 1), []);
  const put = useCallback((value: T) => setState({ value, loading: false }), []);
  return { value: state.value, error: state.error, loading: state.loading, reload, put };
}

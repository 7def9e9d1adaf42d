import { useCallback, useRef, useState } from 'preact/hooks';
import { ApiProblem } from './problem.ts';

export interface Sending {
  busy: boolean;
  error: Error | undefined;
  /** Runs one change at a time; a second tap while it runs does nothing. */
  send: () => Promise<void>;
  /** Sends it again with a reason for what is unusual. */
  confirm: (reason: string) => Promise<void>;
  clear: () => void;
}

/**
 * A change that is sent to the server.
 *
 * @param change gets the headers that confirm unusual values, empty at first
 */
export function useSending(change: (confirming: Record<string, string>) => Promise<void>): Sending {
  const [state, setState] = useState<{ busy: boolean; error?: Error }>({ busy: false });
  const running = useRef(false);
  const latest = useRef(change);
  latest.current = change;
  const run = useCallback(async (headers: Record<string, string>) => {
    if (running.current) return;
    running.current = true;
    setState({ busy: true });
    try {
      await latest.current(headers);
      setState({ busy: false });
    } catch (error) {
      setState({ busy: false, error: error as Error });
    } finally {
      running.current = false;
    }
  }, []);
  const { busy, error } = state;
  return {
    busy,
    error,
    send: () => run({}),
    confirm: (reason) =>
      error instanceof ApiProblem
        ? run({ confirm: error.errors.map(({ pointer }) => pointer).join(', '), 'confirm-reason': reason })
        : Promise.resolve(),
    clear: () => setState({ busy: false }),
  };
}

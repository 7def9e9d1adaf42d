import { useLayoutEffect } from 'preact/hooks';

/** Dims the whole page while it is looked at: the colour of heat is judged in dim light. */
export function useDimPage(): void {
  // Before it is painted: no flash of light at the fire.
  useLayoutEffect(() => {
    const { dataset } = document.documentElement;
    const before = dataset['light'];
    dataset['light'] = 'dim';
    return () => {
      if (before === undefined) delete dataset['light'];
      else dataset['light'] = before;
    };
  }, []);
}

import { useEffect, useState } from 'preact/hooks';

const WIDE = '(width >= 45rem)';

/** Whether there is room for a picture in its wide form; follows a tablet that is turned. */
export function useIsWide(): boolean {
  const [isWide, setIsWide] = useState(() => window.matchMedia(WIDE).matches);
  useEffect(() => {
    const asked = window.matchMedia(WIDE);
    const change = () => setIsWide(asked.matches);
    asked.addEventListener('change', change);
    return () => asked.removeEventListener('change', change);
  }, []);
  return isWide;
}

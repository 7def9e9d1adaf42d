import { useLayoutEffect, useRef } from 'preact/hooks';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';

const STEPS = [1, 1.5, 2, 3, 4, 6, 8] as const;

interface Zoom {
  zoom: number;
  setZoom: (zoom: number) => void;
}

const larger = (zoom: number): number => STEPS.find((step) => step > zoom) ?? zoom;
const smaller = (zoom: number): number => STEPS.findLast((step) => step < zoom) ?? zoom;

/** The drawing larger and smaller, by buttons; enlarged, it is moved as any page is. */
export function ZoomButtons({ zoom, setZoom }: Zoom) {
  const { say, percent } = useWords();
  return (
    <div class="row design-zoom">
      <Button aria-label={say('design.zoom.out')} disabled={zoom === smaller(zoom)} onClick={() => setZoom(smaller(zoom))}>
        −
      </Button>
      <span class="figure" role="status">
        {percent(zoom)}
      </span>
      <Button aria-label={say('design.zoom.in')} disabled={zoom === larger(zoom)} onClick={() => setZoom(larger(zoom))}>
        +
      </Button>
      <Button disabled={zoom === 1} onClick={() => setZoom(1)}>
        {say('design.zoom.whole')}
      </Button>
    </div>
  );
}

/** The same by + and −, and 0 for the whole; for the drawing to listen to, so that they count while it has the focus alone (WCAG 2.1.4). */
export function zoomByKey(event: KeyboardEvent, { zoom, setZoom }: Zoom): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const to = { '+': larger(zoom), '=': larger(zoom), '-': smaller(zoom), '−': smaller(zoom), '0': 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  setZoom(to);
}

/** What stood in the middle stays there while it grows. */
export function useZoomedPane(zoom: number) {
  const pane = useRef<HTMLDivElement>(null);
  const before = useRef(zoom);
  useLayoutEffect(() => {
    const { current: box } = pane;
    const grown = zoom / before.current;
    before.current = zoom;
    if (!box || grown === 1) return;
    box.scrollLeft = (box.scrollLeft + box.clientWidth / 2) * grown - box.clientWidth / 2;
    box.scrollTop = (box.scrollTop + box.clientHeight / 2) * grown - box.clientHeight / 2;
  }, [zoom]);
  return pane;
}

import type { RefObject } from 'preact';
import { useCallback, useEffect, useRef } from 'preact/hooks';

/** Calls back at once and whenever what stands on the page has changed. */
function useChanges(changed: () => void): void {
  useEffect(() => {
    const watching = new MutationObserver(changed);
    watching.observe(document.body, { childList: true, subtree: true, characterData: true });
    changed();
    return () => watching.disconnect();
  }, [changed]);
}

/** The window is called as the heading of its page, so that a tab or a bookmark is known again. */
export function useWindowTitle(): void {
  const name = useCallback(() => {
    const heading = document.querySelector('h1')?.textContent?.trim();
    const title = heading ? `${heading} – Hearthbook` : 'Hearthbook';
    if (document.title !== title) document.title = title;
  }, []);
  useChanges(name);
}

/**
 * Gives the focus to the heading of a page that was come to, as soon as it stands there: a reader of the screen hears where they are,
 * and the next Tab is on the page.
 *
 * @returns to be called when another page has come
 */
export function useArrival(page: RefObject<HTMLElement | null>): () => void {
  const isArriving = useRef(false);
  const look = useCallback(() => {
    const main = page.current;
    if (!isArriving.current || !main) return;
    // Whoever has gone on to a field of the page stays there.
    const isElsewhere = document.activeElement !== document.body && document.activeElement !== main;
    const heading = main.querySelector('h1');
    if (isElsewhere || heading) isArriving.current = false;
    if (isElsewhere || !heading) return;
    heading.tabIndex = -1;
    heading.focus({ preventScroll: true });
  }, []);
  useChanges(look);
  return useCallback(() => {
    isArriving.current = true;
    page.current?.focus({ preventScroll: true });
    look();
  }, []);
}

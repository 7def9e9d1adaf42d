import { useEffect, useRef } from 'preact/hooks';
import type { DesignDraft } from './use-design-draft.ts';

/** Steps are taken back and done again by the usual keys, except while a line of text is typed: the browser takes that back letter by letter. */
export function useUndoKeys(work: Pick<DesignDraft, 'undo' | 'redo'>): void {
  const latest = useRef(work);
  latest.current = work;
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
      const key = event.key.toLowerCase();
      const isRedo = key === 'y' || (key === 'z' && event.shiftKey);
      if (!isRedo && key !== 'z') return;
      event.preventDefault();
      if (isRedo) latest.current.redo?.();
      else latest.current.undo?.();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type !== 'checkbox');
}

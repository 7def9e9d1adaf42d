import { useRef, useState } from 'preact/hooks';
import { useDraft } from '../../ui/use-draft.ts';
import type { Draft } from './draft.ts';

interface Kept {
  /** The version that the draft began from. */
  base: number;
  draft: Draft;
}

export interface DesignDraft {
  draft: Draft;
  base: number;
  isChanged: boolean;
  /** Somebody has saved another version since this one was begun. */
  isBehind: boolean;
  /** @param of what is typed into one field counts as one step back, not letter by letter */
  edit: (change: (draft: Draft) => Draft, of?: string) => void;
  undo: (() => void) | undefined;
  redo: (() => void) | undefined;
  /** Goes on from the version that is saved now, with what is drawn here. */
  layOver: () => void;
  /** Goes on from what is saved now; one step back brings this draft again. */
  takeSaved: () => void;
  /** What was sent is saved as this version; what was typed since goes on from it. */
  saved: (sent: Draft, number: number) => void;
  latest: { readonly current: Kept };
}

/** The design as it is being drawn: kept through a reload, with every step to take back. */
export function useDesignDraft(pieceId: string, stored: { number: number; draft: Draft }): DesignDraft {
  const {
    draft: kept,
    isChanged,
    change,
    drop,
  } = useDraft<Kept>(`design:${pieceId}`, { base: stored.number, draft: stored.draft });
  const [steps, setSteps] = useState<{ past: readonly Draft[]; future: readonly Draft[]; of?: string | undefined }>({
    past: [],
    future: [],
  });
  // Two edits may come before the page is drawn again.
  const latest = useRef(kept);
  latest.current = kept;
  const keep = (next: Kept) => {
    latest.current = next;
    change(next);
  };
  const go = (draft: Draft) => {
    const { base } = latest.current;
    keep({ base, draft });
    if (base === stored.number && JSON.stringify(draft) === JSON.stringify(stored.draft)) drop();
  };
  return {
    draft: kept.draft,
    base: kept.base,
    isChanged,
    isBehind: isChanged && kept.base !== stored.number,
    edit(make, of) {
      const before = latest.current.draft;
      const after = make(before);
      if (JSON.stringify(after) === JSON.stringify(before)) return;
      setSteps(({ past, of: last }) => ({ past: of !== undefined && of === last ? past : [...past, before], future: [], of }));
      go(after);
    },
    undo: steps.past.length === 0 ? undefined : () => step(steps, setSteps, { now: kept.draft, back: true, go }),
    redo: steps.future.length === 0 ? undefined : () => step(steps, setSteps, { now: kept.draft, back: false, go }),
    layOver: () => keep({ base: stored.number, draft: latest.current.draft }),
    takeSaved() {
      const mine = latest.current.draft;
      setSteps(({ past }) => ({ past: [...past, mine], future: [] }));
      drop();
    },
    saved(sent, number) {
      if (latest.current.draft === sent) drop();
      else keep({ base: number, draft: latest.current.draft });
    },
    latest,
  };
}

interface Steps {
  past: readonly Draft[];
  future: readonly Draft[];
}

function step(
  { past, future }: Steps,
  set: (steps: Steps) => void,
  { now, back, go }: { now: Draft; back: boolean; go: (draft: Draft) => void },
): void {
  if (back) {
    set({ past: past.slice(0, -1), future: [now, ...future] });
    go(past.at(-1)!);
  } else {
    set({ past: [...past, now], future: future.slice(1) });
    go(future[0]!);
  }
}

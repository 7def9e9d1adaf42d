import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { ItemOf } from '../../api/reply.ts';
import type { Draft } from './draft.ts';
import type { MetalOfBook } from './weigh-draft.ts';

/** Which place of which joint or loose contact is to be shown on the drawing. */
export interface Picking {
  list: 'joints' | 'contacts';
  index: number;
  side: 0 | 1;
}

interface DesignWork {
  draft: Draft;
  /** What the server said of it when it was sent last. */
  error: Error | undefined;
  readOnly: boolean;
  metals: readonly MetalOfBook[];
  solders: readonly ItemOf<'/api/v1/solder-products'>[];
  edit: (change: (draft: Draft) => Draft, of?: string) => void;
  picking: Picking | undefined;
  pick: (picking: Picking | undefined) => void;
  /** The joint that was opened last: its mark stands out on the drawing. */
  opened: string | undefined;
  open: (joint: string | undefined) => void;
}

export const DesignContext = createContext<DesignWork | undefined>(undefined);

/** @throws outside the design editor */
export function useDesign(): DesignWork {
  const work = useContext(DesignContext);
  if (!work) throw new Error('no design is being drawn');
  return work;
}

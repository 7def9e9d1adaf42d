import type { Plan } from '../../../../shared/design/plan.ts';
import { useDraft } from '../../ui/use-draft.ts';
import type { PlanVersion } from './piece-plans.ts';

interface Kept {
  /** The version that the draft began from: its number, and how often it was written; null: from none. */
  base: { number: number; version: number } | null;
  plan: Plan;
}

export interface PlanDraft {
  plan: Plan | null;
  isChanged: boolean;
  /** Somebody has saved a version since this one was begun. */
  isBehind: boolean;
  /** The number of the version it began from; 0: of none. */
  baseNumber: number;
  change: (plan: Plan) => void;
  drop: () => void;
  /** Goes on from the newest version, with what is planned here. */
  layOver: () => void;
  /** Goes on from what is saved now; what was planned here is put aside. */
  takeSaved: () => void;
  /** Brings back what was put aside. */
  bringBack: (() => void) | undefined;
}

/** The plan as it is being made: kept through a reload and past what others save, until it is saved or dropped. */
export function usePlanDraft(pieceId: string, newest: PlanVersion | undefined): PlanDraft {
  const base = newest === undefined ? null : { number: newest.number, version: newest.version };
  const { draft, isChanged, change, drop } = useDraft<Kept | null>(`plan:${pieceId}`, null);
  const aside = useDraft<Plan | null>(`plan-aside:${pieceId}`, null);
  const kept = isChanged ? draft : null;
  const from = kept ? kept.base : base;
  return {
    plan: kept ? kept.plan : (newest?.plan ?? null),
    isChanged: kept !== null,
    isBehind: kept !== null && JSON.stringify(kept.base) !== JSON.stringify(base),
    baseNumber: from?.number ?? 0,
    change: (plan) => change({ base: from, plan }),
    drop,
    layOver: () => kept && change({ base, plan: kept.plan }),
    takeSaved() {
      if (kept) aside.change(kept.plan);
      drop();
    },
    bringBack:
      aside.draft === null
        ? undefined
        : () => {
            change({ base, plan: aside.draft! });
            aside.drop();
          },
  };
}

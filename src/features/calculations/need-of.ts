import { solderNeedG } from '../../../shared/costing/solder-need.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { PlanCheckRequest } from '../../../shared/sequencing/check-plan.ts';

/** What each joint of a design takes of each solder, worked out when it is first asked. */
export function needOf({ design, solders }: Pick<PlanCheckRequest, 'design' | 'solders'>): ReturnType<typeof solderNeedG> {
  let need: ReturnType<typeof solderNeedG> | undefined;
  return (joint, solder) => {
    // Asked only of a design whose names are sound; before that it could not be expanded.
    need ??= solderNeedG(expandDesign(design).design, solders);
    return need(joint, solder);
  };
}

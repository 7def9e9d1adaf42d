import { Moves } from '../../ui/moves.tsx';
import type { PlanVersion } from './piece-plans.ts';

/** What may become of the newest version: it is checked, signed by a tutor, taken into use at the bench. */
export function PlanMoves({ newest, done }: { newest: PlanVersion; done: () => void }) {
  return <Moves thing={newest} to="/api/v1/plans/{id}/moves" words="plan.move" done={done} />;
}

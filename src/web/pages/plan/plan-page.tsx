import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import type { DesignOfPiece } from './piece-plans.ts';
import { PlanBoard } from './plan-board.tsx';
import { PlanMoves } from './plan-moves.tsx';
import { offeredSolders } from './offered-solders.ts';

/** The heats of one piece: what each does to the joints before it, and how to do better. */
export function PlanPage({ id }: { id: string }) {
  const { say } = useWords();
  const loaded = useLoaded(
    async (signal) => {
      const path = { params: { path: { id } }, signal };
      const [piece, design, plans] = await Promise.all([
        bodyOf(api.GET('/api/v1/pieces/{id}', path)),
        designOf(id, signal),
        bodyOf(api.GET('/api/v1/pieces/{id}/plans', { params: { path: { id }, query: { limit: 20 } }, signal })),
      ]);
      const newest = plans.items[0];
      return { piece, design, newest, solders: newest?.solders ?? (await offeredSolders(signal)) };
    },
    [id],
  );
  return (
    <Waiting of={loaded}>
      {({ piece, design, newest, solders }) => (
        <>
          <h1>{say('plan.title', { piece: `${piece.number} ${piece.title}` })}</h1>
          {design === null ? (
            <p class="card">
              {say('plan.noDesign')} <a href={`/pieces/${id}/design`}>{say('plan.toDesign')}</a>
            </p>
          ) : (
            <>
              {newest && <PlanMoves newest={newest} done={loaded.reload} />}
              <PlanBoard key={id} piece={piece} design={design} newest={newest} solders={solders} again={loaded.reload} />
            </>
          )}
        </>
      )}
    </Waiting>
  );
}

/** Null for a piece that is not drawn yet. */
async function designOf(id: string, signal: AbortSignal): Promise<DesignOfPiece | null> {
  try {
    return (await bodyOf(
      api.GET('/api/v1/pieces/{id}/design', { params: { path: { id } }, signal }),
    )) as unknown as DesignOfPiece;
  } catch (error) {
    if (error instanceof ApiProblem && error.body.status === 404) return null;
    throw error;
  }
}

import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { DesignEditor, type StoredDesign } from './design-editor.tsx';
import { EMPTY, type Draft } from './draft.ts';

/** What a piece is made of: parts by shape, joints between places on them, and the maker's rules. */
export function DesignPage({ id }: { id: string }) {
  const { say } = useWords();
  const loaded = useLoaded(
    async (signal) => {
      const path = { params: { path: { id } }, signal };
      const [piece, stored, metals, solders] = await Promise.all([
        bodyOf(api.GET('/api/v1/pieces/{id}', path)),
        storedOf(id, signal),
        bodyOf(api.GET('/api/v1/metals', { signal })),
        bodyOf(api.GET('/api/v1/solder-products', { params: { query: { active: 'true', limit: 200 } }, signal })),
      ]);
      return { piece, stored, metals: metals.items, solders: solders.items };
    },
    [id],
  );
  return (
    <Waiting of={loaded}>
      {(got) => (
        <>
          <h1>{say('design.title', { piece: `${got.piece.number} ${got.piece.title}` })}</h1>
          <DesignEditor
            key={id}
            {...got}
            again={loaded.reload}
            saved={(design) => loaded.put({ ...got, stored: storedAs(design) })}
          />
        </>
      )}
    </Waiting>
  );
}

/** Version 0 and nothing in it for a piece that is not drawn yet. */
async function storedOf(id: string, signal: AbortSignal): Promise<{ number: number; draft: Draft }> {
  try {
    return storedAs(await bodyOf(api.GET('/api/v1/pieces/{id}/design', { params: { path: { id } }, signal })));
  } catch (error) {
    if (error instanceof ApiProblem && error.body.status === 404) return { number: 0, draft: EMPTY };
    throw error;
  }
}

function storedAs({ number, parts, joints, contacts, rules, entered }: StoredDesign): { number: number; draft: Draft } {
  const design = { parts, joints, ...(contacts !== undefined && { contacts }), ...(rules !== undefined && { rules }), entered };
  // Its schema is the engine's own; on the wire a pair is a plain list.
  return { number, draft: design as Draft };
}

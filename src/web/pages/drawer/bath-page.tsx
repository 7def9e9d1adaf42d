import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { BathDips } from './bath-dips.tsx';
import { BathCard } from './bath-card.tsx';
import { DrawerHead } from './drawer-head.tsx';

/** One pickle, at the address that the square on its label leads to. */
export function BathPage({ id }: { id: string }) {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/pickle-baths/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <>
      <DrawerHead title={say('drawer.room.baths')} />
      <Waiting of={loaded}>
        {(bath) => (
          <>
            <BathCard bath={bath} done={loaded.reload} isAlone />
            {may(session, 'bench', 'desk') && <BathDips bath={bath} done={loaded.reload} />}
          </>
        )}
      </Waiting>
    </>
  );
}

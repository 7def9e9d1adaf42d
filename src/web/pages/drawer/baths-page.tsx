import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { BathCard } from './bath-card.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { MixBath } from './mix-bath.tsx';

/** Every pickle with how far it is used up. */
export function BathsPage() {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/pickle-baths', { params: { query: { limit: 100 } }, signal })),
    [],
  );
  return (
    <>
      <DrawerHead title={say('drawer.room.baths')} />
      <Waiting of={loaded}>
        {({ items }) => {
          const gone = items.filter(({ state }) => state === 'gone');
          return (
            <>
              {items.length === gone.length && <p class="card">{say('bath.none')}</p>}
              {items
                .filter(({ state }) => state !== 'gone')
                .map((bath) => (
                  <BathCard key={bath.id} bath={bath} done={loaded.reload} />
                ))}
              {gone.length > 0 && (
                <details>
                  <summary>{say('bath.gone', { count: gone.length })}</summary>
                  {gone.map((bath) => (
                    <BathCard key={bath.id} bath={bath} done={loaded.reload} />
                  ))}
                </details>
              )}
            </>
          );
        }}
      </Waiting>
      {may(session, 'bench') && <MixBath done={loaded.reload} />}
    </>
  );
}

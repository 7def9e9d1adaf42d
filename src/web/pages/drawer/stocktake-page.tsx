import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Moves } from '../../ui/moves.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { BlindCount } from './blind-count.tsx';
import { ComparedCounts } from './compared-counts.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { TrimOffers } from './trim-offers.tsx';

/** One stocktake: counted blind, then laid beside the book, then posted. */
export function StocktakePage({ id }: { id: string }) {
  const { say, named, moment } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/stocktakes/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <Waiting of={loaded}>
      {(stocktake) => (
        <>
          <DrawerHead title={say('count.title', { number: stocktake.number })} />
          <p>
            <span class="word">{named('stocktake.state', stocktake.state)}</span> {stocktake.stateReason}{' '}
            {stocktake.closedAt !== null && say('count.closed', { at: moment(stocktake.closedAt, session.studio.timeZone) })}
          </p>
          <Moves
            thing={stocktake}
            to="/api/v1/stocktakes/{id}/moves"
            words="stocktake.move"
            done={loaded.reload}
            mayOverride={may(session, 'owner')}
          />
          {stocktake.state === 'counting' ? (
            <BlindCount stocktake={stocktake} show={loaded.put} />
          ) : (
            <ComparedCounts stocktake={stocktake} show={loaded.put} />
          )}
          <TrimOffers trims={stocktake.trims} />
        </>
      )}
    </Waiting>
  );
}

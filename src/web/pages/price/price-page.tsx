import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { Builder } from './builder.tsx';
import { Compare } from './compare.tsx';
import { MoneyCard } from './money-card.tsx';
import { OutsideOfVersion } from './outside-page.tsx';
import { PrivateLink } from './private-link.tsx';
import { Versions } from './versions.tsx';

/** The price of one promise: what it costs us, what the client is told, and what becomes of it. */
export function PricePage({ id }: { id: string }) {
  const { say } = useWords();
  const session = useSession();
  const isOwner = may(session, 'owner');
  const loaded = useLoaded((signal) => pricesOf(id, signal), [id]);
  const [chosen, setChosen] = useState<string>();
  return (
    <Waiting of={loaded}>
      {({ commission, quotes }) => {
        const shown = chosen ?? usual(quotes)?.id ?? '';
        const version = quotes.find((quote) => quote.id === shown);
        const changed = (kept?: string) => {
          if (kept !== undefined) setChosen(kept);
          loaded.reload();
        };
        return (
          <>
            <h1>{say('price.title', { number: commission.number, title: commission.title })}</h1>
            <p>
              <a href={`/commissions/${id}`}>{say('price.toCommission')}</a>
            </p>
            {isOwner ? (
              <Builder commission={commission} quotes={quotes} chosen={shown} choose={setChosen} kept={changed} />
            ) : (
              version && <OutsideOfVersion commission={commission} version={version} />
            )}
            <Versions commission={commission} quotes={quotes} shown={shown} choose={setChosen} changed={changed} />
            {isOwner && quotes.length > 1 && <Compare key={quotes[0]!.id} quotes={quotes} />}
            <MoneyCard commission={commission} changed={loaded.reload} />
            <PrivateLink commissionId={id} />
          </>
        );
      }}
    </Waiting>
  );
}

async function pricesOf(id: string, signal: AbortSignal) {
  const [commission, quotes] = await Promise.all([
    bodyOf(api.GET('/api/v1/commissions/{id}', { params: { path: { id } }, signal })),
    bodyOf(api.GET('/api/v1/quotes', { params: { query: { commissionId: id, limit: 100 } }, signal })),
  ]);
  return { commission, quotes: quotes.items };
}

/** Versions come newest first; one that was binned is nobody's to begin from. */
function usual<Q extends { state: string }>(quotes: readonly Q[]): Q | undefined {
  return quotes.find(({ state }) => state !== 'binned');
}

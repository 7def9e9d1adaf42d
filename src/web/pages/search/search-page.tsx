import { useLocation } from 'preact-iso';
import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type Found = ReplyOf<'/api/v1/search'>['items'][number];

/** What the one box found. */
export function SearchPage() {
  const { say, named } = useWords();
  const { query } = useLocation();
  const text = query['text'] ?? '';
  const loaded = useLoaded(
    async (signal) =>
      text.trim().length < 3
        ? []
        : (await bodyOf(api.GET('/api/v1/search', { params: { query: { text, limit: 50 } }, signal }))).items,
    [text],
  );
  return (
    <>
      <h1>{say('search.title', { text })}</h1>
      <Waiting of={loaded}>
        {(items) =>
          items.length === 0 ? (
            <p class="card" role="status">
              {say('search.none')}
            </p>
          ) : (
            <ul class="plain-list card found">
              {items.map((one) => (
                <li key={one.kind + one.id} class="line">
                  <span class="word">{named('search.kind', one.kind)}</span> <a href={pathOf(one)}>{one.label}</a>
                </li>
              ))}
            </ul>
          )
        }
      </Waiting>
    </>
  );
}

function pathOf({ kind, id }: Found): string {
  switch (kind) {
    case 'client':
      return `/clients/${id}`;
    case 'commission':
      return `/commissions/${id}`;
    case 'piece':
      return `/pieces/${id}`;
    case 'solder_lot':
      return `/lots/${id}`;
    case 'solder_product':
    case 'metal_product':
    case 'supplier':
      return '/drawer';
  }
}

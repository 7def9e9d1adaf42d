import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Table } from '../../ui/table.tsx';
import { useMetalNames } from '../../ui/use-metal-names.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

/** Every piece, newest first. */
export function PieceList() {
  const { say, named } = useWords();
  const nameOf = useMetalNames();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/pieces', { params: { query: { limit: 100 } }, signal })), []);
  return (
    <>
      <h1>{say('pieces.title')}</h1>
      <Waiting of={loaded}>
        {({ items }) =>
          items.length === 0 ? (
            <p class="card">{say('pieces.none')}</p>
          ) : (
            <Table
              label={say('pieces.title')}
              named
              keyOf={({ id }) => id}
              rows={items}
              columns={[
                {
                  head: say('pieces.what'),
                  of: ({ id, number, title }) => (
                    <>
                      <a href={`/pieces/${id}`}>{number}</a> {title}
                    </>
                  ),
                },
                { head: say('pieces.state'), of: ({ state }) => named('piece.state', state) },
                { head: say('pieces.metal'), of: ({ metal }) => nameOf(metal) },
                {
                  head: say('pieces.plan'),
                  of: ({ id, number }) => (
                    <a href={`/pieces/${id}/plan`} aria-label={`${say('pieces.plan')} ${number}`}>
                      {say('pieces.plan')}
                    </a>
                  ),
                },
              ]}
            />
          )
        }
      </Waiting>
    </>
  );
}

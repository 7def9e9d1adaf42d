import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf, ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Table } from '../../ui/table.tsx';
import { TakeBack, type Sent } from '../../ui/take-back.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type Bath = ReplyOf<'/api/v1/pickle-baths/{id}'>;
type Dip = ItemOf<'/api/v1/pickle-baths/{id}/dips'>;

const OVER: ReadonlySet<string> = new Set(['neutralised', 'gone']);

/** The heats that went into a pickle, newest first; one that was counted wrongly is taken back. */
export function BathDips({ bath, done }: { bath: Bath; done: () => void }) {
  const words = useWords();
  const { say, number, moment } = words;
  const session = useSession();
  const { id, dips, copper, state } = bath;
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/pickle-baths/{id}/dips', { params: { path: { id }, query: { limit: 100 } }, signal })),
    [id, dips, copper.usedG],
  );
  const when = ({ occurredAt }: Dip) => moment(occurredAt, session.studio.timeZone);
  const heatOf = ({ heatNumber }: Dip) => say('bath.dips.heatOf', { number: heatNumber });
  const mayTakeBack = may(session, 'bench') && !OVER.has(state);
  return (
    <section class="card">
      <h2>{say('bath.dips.title')}</h2>
      <Waiting of={loaded}>
        {({ items }) =>
          items.length === 0 ? (
            <p>{say('bath.dips.none')}</p>
          ) : (
            <Table
              label={say('bath.dips.title')}
              rows={items}
              keyOf={(dip) => dip.id}
              columns={[
                { head: say('bath.dips.when'), of: when },
                { head: say('bath.dips.heat'), of: (dip) => <a href={`/pieces/${dip.pieceId}`}>{heatOf(dip)}</a> },
                { head: say('bath.dips.area'), of: ({ areaCm2 }) => `${number(areaCm2, 1)} cm²`, figure: true },
                {
                  head: say('bath.dips.copper'),
                  of: ({ copperG }) => showQuantity(words, session.units, 'mass', copperG, 3),
                  figure: true,
                },
                {
                  head: say('bath.dips.temperature'),
                  of: (dip) => (
                    <>
                      {dip.bathC !== null && showQuantity(words, session.units, 'temperature', dip.bathC, 0)}{' '}
                      {dip.takenBack && (
                        <>
                          <span class="word">{say('bath.dips.takenBack')}</span> {dip.takenBack.reason}
                        </>
                      )}
                      {!dip.takenBack && mayTakeBack && (
                        <TakeBack
                          name={say('bath.dips.name', { heat: heatOf(dip), when: when(dip) })}
                          takeBack={(sent) => takeDipBack(dip.id, sent)}
                          done={() => {
                            loaded.reload();
                            done();
                          }}
                        />
                      )}
                    </>
                  ),
                },
              ]}
            />
          )
        }
      </Waiting>
    </section>
  );
}

function takeDipBack(id: string, { reason, headers }: Sent) {
  return bodyOf(api.POST('/api/v1/bath-dips/{id}/reversals', { params: { path: { id } }, body: { reason }, headers }));
}

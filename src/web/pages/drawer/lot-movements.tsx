import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { useWords } from '../../words/words.ts';
import { MovementTable } from './movement-table.tsx';
import { takeSolderBack } from './take-movement-back.ts';

const OWNERS: ReadonlySet<string> = new Set(['receive', 'write_off', 'hold', 'free']);

/** What went into a lot of solder and out of it, newest first. */
export function LotMovements({
  lot: { id: lotId, version, onHandG },
  done,
}: {
  lot: { id: string; version: number; onHandG: number };
  done: () => void;
}) {
  const words = useWords();
  const session = useSession();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/stock-movements', { params: { query: { lotId, limit: 100 } }, signal })),
    [lotId, version, onHandG],
  );
  return (
    <MovementTable
      of={loaded}
      amountOf={(one) => showQuantity(words, session.units, 'mass', one.onHandG, 3)}
      atOf={({ occurredAt }) => occurredAt}
      beside={({ pieceId }) => pieceId !== null && <a href={`/pieces/${pieceId}`}>{words.say('lot.piece')}</a>}
      mayTakeBack={({ kind }) => may(session, OWNERS.has(kind) ? 'owner' : 'bench')}
      takeBack={({ id }, sent) => takeSolderBack(id, sent)}
      done={() => {
        loaded.reload();
        done();
      }}
    />
  );
}

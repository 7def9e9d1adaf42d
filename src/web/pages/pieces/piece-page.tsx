import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Moves, type MoveField } from '../../ui/moves.tsx';
import { Photos } from '../../ui/photos/photos.tsx';
import { Picture } from '../../ui/picture.tsx';
import { Table } from '../../ui/table.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type Piece = ReplyOf<'/api/v1/pieces/{id}'>;

/** One piece: where it stands, its drawing, its joints as they are, and every solder that has run in it. */
export function PiecePage({ id }: { id: string }) {
  const words = useWords();
  const { units } = useSession();
  const { say, named } = words;
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/pieces/{id}', { params: { path: { id } }, signal })), [id]);
  const drawing = useLoaded((signal) => drawingOf(id, signal), [id]);
  const grams = (value: number | null) => (value === null ? '–' : showQuantity(words, units, 'mass', value));
  return (
    <Waiting of={loaded}>
      {(piece) => (
        <>
          <h1>
            {piece.number} {piece.title}
          </h1>
          <p>
            <span class="word">{named('piece.state', piece.state)}</span> {piece.stateReason}
          </p>
          <nav class="row" aria-label={say('piece.pages')}>
            <a class="button" href={`/pieces/${id}/design`}>
              {say('commission.design')}
            </a>
            <a class="button" href={`/pieces/${id}/plan`}>
              {say('commission.heats')}
            </a>
            <a class="button" href={`/commissions/${piece.commissionId}`}>
              {say('piece.commission')}
            </a>
          </nav>
          <Moves thing={piece} to="/api/v1/pieces/{id}/moves" words="piece.move" asks={ASKS} done={loaded.reload} />
          {drawing.value && (
            <section class="card drawn-wide" tabIndex={0} aria-label={say('piece.drawing')}>
              <Picture svg={drawing.value} />
            </section>
          )}
          <section class="card" aria-labelledby="weights">
            <h2 id="weights">{say('piece.weights')}</h2>
            <dl class="pairs">
              <div>
                <dt>{say('piece.computed')}</dt>
                <dd class="figure">{grams(piece.computedG)}</dd>
              </div>
              <div>
                <dt>{say('piece.issued')}</dt>
                <dd class="figure">{grams(piece.metalIssuedG)}</dd>
              </div>
              <div>
                <dt>{say('piece.weighed')}</dt>
                <dd class="figure">{grams(piece.weighedG)}</dd>
              </div>
            </dl>
          </section>
          <Joints piece={piece} />
          <Photos of={{ pieceId: id }} what={`${piece.number} ${piece.title}`} />
          <History piece={piece} />
        </>
      )}
    </Waiting>
  );
}

/** What the moves of a piece want to know. */
const ASKS: Readonly<Record<string, readonly MoveField[]>> = {
  cut: [{ name: 'metalIssuedG', kind: 'mass' }],
  away: [{ name: 'sentTo', kind: 'text' }],
  checked: [{ name: 'lookedOver', kind: 'ticks', options: ['joints', 'surface', 'edges', 'sizes', 'fittings'] }],
  ready: [
    { name: 'weighedG', kind: 'mass' },
    { name: 'photoTaken', kind: 'tick' },
    { name: 'labelled', kind: 'tick' },
  ],
  scrapped: [
    { name: 'metalReturnedG', kind: 'mass' },
    { name: 'remake', kind: 'tick' },
  ],
};

async function drawingOf(id: string, signal: AbortSignal): Promise<string | null> {
  try {
    return await bodyOf(api.GET('/api/v1/pieces/{id}/drawing', { params: { path: { id } }, parseAs: 'text', signal }));
  } catch (error) {
    // Not drawn yet.
    if (error instanceof ApiProblem && error.body.status === 404) return null;
    throw error;
  }
}

function Joints({ piece }: { piece: Piece }) {
  const words = useWords();
  const { units } = useSession();
  const { say, named } = words;
  const shown = (celsius: number) => showQuantity(words, units, 'temperature', celsius);
  if (piece.joints.length === 0) return null;
  return (
    <section class="card" aria-labelledby="joints">
      <h2 id="joints">{say('piece.joints')}</h2>
      <ul class="plain-list">
        {piece.joints.map(({ joint, state, solder }) => (
          <li key={joint} class="line">
            <strong>{joint}</strong> <span class="word">{named('joint.state', state)}</span>{' '}
            {typeof solder === 'object' && solder !== null
              ? say('plan.solderTemps', { solder: solder.id, solidus: shown(solder.solidusC), liquidus: shown(solder.liquidusC) })
              : solder === 'unknown' && say('piece.unknownSolder')}
          </li>
        ))}
      </ul>
    </section>
  );
}

function History({ piece }: { piece: Piece }) {
  const { say, moment, number } = useWords();
  const { studio } = useSession();
  if (piece.solderHistory.length === 0) return null;
  return (
    <section class="card" aria-labelledby="history">
      <h2 id="history">{say('piece.history')}</h2>
      <Table
        label={say('piece.history')}
        keyOf={({ joint, at }) => joint + at}
        rows={piece.solderHistory}
        columns={[
          { head: say('piece.history.when'), of: ({ at }) => moment(at, studio.timeZone) },
          { head: say('piece.history.heat'), of: ({ heat }) => heat },
          { head: say('piece.history.joint'), of: ({ joint }) => joint },
          { head: say('plan.solder'), of: ({ solderName }) => solderName },
          { head: say('piece.history.lot'), of: ({ lot }) => lot },
          { head: say('piece.history.used'), of: ({ usedG }) => number(usedG * 1000, 1), figure: true },
        ]}
      />
    </section>
  );
}

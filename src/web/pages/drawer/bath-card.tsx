import type { ReplyOf } from '../../api/reply.ts';
import { may, useSession } from '../../session/session.ts';
import { Moves, type MoveField } from '../../ui/moves.tsx';
import { useWords } from '../../words/words.ts';

type Bath = ReplyOf<'/api/v1/pickle-baths/{id}'>;

const REASON: MoveField = { name: 'reason', kind: 'text' };
const ASKS: Readonly<Record<string, readonly MoveField[]>> = {
  neutralised: [{ name: 'ph', kind: 'number' }],
  gone: [{ name: 'goneTo', kind: 'text' }],
};
const OUT_OF_FOULED: readonly MoveField[] = [
  { name: 'ironOut', kind: 'tick' },
  { name: 'piecesChecked', kind: 'tick' },
  { name: 'blushes', kind: 'number' },
];

interface Props {
  bath: Bath;
  done: () => void;
  /** On the page that is about it alone. */
  isAlone?: boolean;
}

/** A pickle: how far it is used up, and what may be done with it now. */
export function BathCard({ bath, done, isAlone = false }: Props) {
  const { say, named, date, number, percent } = useWords();
  const session = useSession();
  const { id, acid, volumeL, strengthGPerL, openedOn, state, copper, acidUsed, goneOn, goneTo } = bath;
  const asks = {
    ...ASKS,
    ...(state === 'fouled' && { in_use: OUT_OF_FOULED }),
    ...(state === 'fresh' && { neutralised: [...ASKS['neutralised']!, REASON] }),
  };
  const title = say('bath.title', { number: bath.number });
  return (
    <section class="card" aria-labelledby={`bath-${id}`}>
      <h2 id={`bath-${id}`}>{title}</h2>
      <p>
        <span class={state === 'fouled' || state === 'spent' ? 'word word-runs' : 'word'}>{named('bath.state', state)}</span>{' '}
        {bath.stateReason}
      </p>
      <p class="soft">
        {say('bath.what', {
          acid: named('bath.acid', acid),
          volume: number(volumeL, 1),
          strength: number(strengthGPerL),
          date: date(openedOn),
        })}
      </p>
      <dl class="pairs">
        <Pair word={say('bath.copper')} value={say('bath.ofLimit', { share: percent(copper.fraction) })} />
        {acidUsed && <Pair word={say('bath.acidUsed')} value={say('bath.ofLimit', { share: percent(acidUsed.fraction) })} />}
        <Pair word={say('bath.dips')} value={number(bath.dips)} />
      </dl>
      {goneOn !== null && <p>{say('bath.wentTo', { date: date(goneOn), where: goneTo ?? '' })}</p>}
      <Cautions bath={bath} />
      <Moves
        thing={bath}
        to="/api/v1/pickle-baths/{id}/moves"
        words="bath.move"
        asks={asks}
        done={done}
        mayOverride={may(session, 'owner')}
      />
      <p class="row">
        <a
          href={`/api/v1/labels/pickle-baths/${id}`}
          target="_blank"
          rel="noopener"
          aria-label={`${say('bath.label')} ${bath.number}`}
        >
          {say('bath.label')}
        </a>
        {!isAlone && <a href={`/baths/${id}`}>{say('bath.open', { number: bath.number })}</a>}
      </p>
    </section>
  );
}

function Pair({ word, value }: { word: string; value: string }) {
  return (
    <div>
      <dt>{word}</dt>
      <dd class="figure">{value}</dd>
    </div>
  );
}

function Cautions({ bath: { cautions } }: { bath: Bath }) {
  const { say, named } = useWords();
  if (cautions.length === 0) return null;
  return (
    <div class="notice notice-caution">
      <p>
        <strong>{say('bath.cautions')}</strong>
      </p>
      <ul>
        {cautions.map(({ id, words }) => {
          const said = named('caution', id);
          return said === id ? (
            <li key={id} lang="en">
              {words}
            </li>
          ) : (
            <li key={id}>{said}</li>
          );
        })}
      </ul>
    </div>
  );
}

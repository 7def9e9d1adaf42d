import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Moves, type MoveField, type MoveSent } from '../../ui/moves.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { CadmiumWord } from './cadmium-word.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { LotMovements } from './lot-movements.tsx';
import { LotWeighing } from './lot-weighing.tsx';
import { sayWindow } from './melting-window.ts';
import { UseByHand } from './use-by-hand.tsx';
import { sayPrice } from './price.ts';

type Lot = ReplyOf<'/api/v1/solder-lots/{id}'>;

/** One lot, at the address that the square on its label leads to. */
export function LotPage({ id }: { id: string }) {
  const { say, tell, named } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/solder-lots/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <Waiting of={loaded}>
      {(lot) => (
        <>
          <DrawerHead title={`${say('drawer.lot', { number: lot.number })}: ${lot.productName}`} />
          <p>
            <span class="word">{named('lot.state', lot.state)}</span> {lot.stateReason && tell(lot.stateReason)}{' '}
            <CadmiumWord standing={lot.cadmiumStanding} />
          </p>
          <Moves
            thing={lot}
            to="/api/v1/solder-lots/{id}/moves"
            words="lot.move"
            asks={asksOf(lot)}
            mayOverride={may(session, 'owner')}
            done={loaded.reload}
            bodyFrom={withDocument}
          />
          <Facts lot={lot} />
          {may(session, 'bench') && lot.state !== 'finished' && lot.state !== 'written_off' && (
            <>
              <LotWeighing id={id} reload={loaded.reload} />
              <UseByHand lotId={id} reload={loaded.reload} />
            </>
          )}
          {may(session, 'bench', 'desk') && <LotMovements lot={lot} done={loaded.reload} />}
        </>
      )}
    </Waiting>
  );
}

function Facts({ lot }: { lot: Lot }) {
  const words = useWords();
  const { say, named, date } = words;
  const { units, studio } = useSession();
  const product = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/solder-products/{id}', { params: { path: { id: lot.productId } }, signal })),
    [lot.productId],
  );
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams);
  const facts: [string, string][] = [
    [say('drawer.onHand'), mass(lot.onHandG)],
    [say('lot.received'), say('lot.receivedValue', { quantity: mass(lot.receivedG), date: date(lot.receivedOn) })],
    [say('receive.mark'), lot.markOnMetal ?? say('drawer.unmarked')],
    [say('product.form'), named('solderForm', lot.form)],
  ];
  if (lot.useBy !== null) facts.push([say('receive.useBy'), date(lot.useBy)]);
  if (lot.unitCost) facts.push([say('lot.cost'), sayPrice(words, lot.unitCost, studio.currency)]);
  return (
    <section class="card">
      {product.value && <p>{sayWindow(words, units, product.value)}</p>}
      <dl class="pairs">
        {facts.map(([word, value]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd class="figure">{value}</dd>
          </div>
        ))}
      </dl>
      <p>
        <a href={`/api/v1/labels/solder-lots/${lot.id}`} target="_blank" rel="noopener">
          {say('lot.label')}
        </a>
      </p>
    </section>
  );
}

function asksOf({ state, cadmiumStanding }: Lot): Readonly<Record<string, readonly MoveField[]>> {
  const reason: MoveField = { name: 'reason', kind: 'text' };
  return {
    ...(state === 'held_back' && {
      open: [
        { name: 'markOnMetal', kind: 'text' },
        reason,
        ...(cadmiumStanding === 'unknown'
          ? ([
              { name: 'documentKind', kind: 'choice', options: ['supplier_sheet', 'laboratory_analysis'] },
              { name: 'documentReference', kind: 'text' },
              { name: 'documentDatedOn', kind: 'date' },
            ] satisfies MoveField[])
          : []),
      ],
    }),
    held_back: [reason, { name: 'cadmiumStanding', kind: 'choice', options: ['yes', 'unknown'] }],
    written_off: [reason],
  };
}

/** The paper that rules cadmium out, from what was said of it. */
function withDocument({ documentKind, documentReference, documentDatedOn, ...move }: MoveSent): object {
  if (documentKind === undefined && documentReference === undefined && documentDatedOn === undefined) return move;
  return { ...move, document: { kind: documentKind, reference: documentReference, datedOn: documentDatedOn } };
}

import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import type { Done } from '../../ui/take-back.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { DrawerHead } from './drawer-head.tsx';
import type { MetalLot } from './drawer-replies.ts';
import { MetalMark } from './metal-mark.tsx';
import { MovementTable } from './movement-table.tsx';
import { takeMetalBack } from './take-movement-back.ts';
import { WeighForm, type Weighing } from './weigh-form.tsx';

/** One lot of metal: what is left of it, what went in and out, and the scale. */
export function MetalLotPage({ id }: { id: string }) {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/metal-lots/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <Waiting of={loaded}>
      {(lot) => (
        <>
          <DrawerHead title={say('metal.lot', { number: lot.number, product: lot.productName })} />
          <p class="line lot-line">
            <MetalMark lot={lot} />
          </p>
          {may(session, 'bench') && <Weigh lot={lot} done={loaded.reload} />}
          <Movements lot={lot} done={loaded.reload} />
        </>
      )}
    </Waiting>
  );
}

function Weigh({ lot: { id }, done }: { lot: MetalLot; done: () => void }) {
  const words = useWords();
  const { say } = words;
  const { units } = useSession();
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams, 3);
  const weigh = async ({ body, headers }: Weighing): Promise<Done> => {
    const sent = { params: { path: { id } }, body, headers };
    const { lot, movement, sinceLastCount } = await bodyOf(api.POST('/api/v1/metal-lots/{id}/weighings', sent));
    if (movement === null) return { id: `${lot.id} ${lot.version}`, says: say('lot.agrees') };
    return {
      id: movement.id,
      says: say('lot.followed', { difference: mass(sinceLastCount.differenceG), tolerance: mass(sinceLastCount.toleranceG) }),
      takeBack: (back) => takeMetalBack(movement.id, back),
    };
  };
  return <WeighForm weigh={weigh} after={done} />;
}

const OWNERS: ReadonlySet<string> = new Set(['receive', 'write_off']);

function Movements({ lot: { id: lotId, onHandG }, done }: { lot: MetalLot; done: () => void }) {
  const words = useWords();
  const session = useSession();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/metal-movements', { params: { query: { lotId, limit: 100 } }, signal })),
    [lotId, onHandG],
  );
  return (
    <MovementTable
      of={loaded}
      amountOf={(one) => showQuantity(words, session.units, 'mass', one.onHandG, 3)}
      atOf={({ occurredAt }) => occurredAt}
      beside={({ pieceId }) => pieceId !== null && <a href={`/pieces/${pieceId}`}>{words.say('lot.piece')}</a>}
      mayTakeBack={({ kind }) => may(session, OWNERS.has(kind) ? 'owner' : 'bench')}
      takeBack={({ id }, sent) => takeMetalBack(id, sent)}
      done={() => {
        loaded.reload();
        done();
      }}
    />
  );
}

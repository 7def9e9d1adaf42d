import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { BookSupply } from './book-supply.tsx';
import { ChangeSupply } from './change-supply.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { MovementTable } from './movement-table.tsx';
import { saySupply } from './say-supply.ts';
import type { Supply } from './supply-draft.ts';
import { takeSupplyBack } from './take-movement-back.ts';

/** One supply: what there is, what went in and out, and what is booked next. */
export function SupplyPage({ id }: { id: string }) {
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/supplies/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <Waiting of={loaded}>
      {(supply) => (
        <>
          <DrawerHead title={supply.name} />
          <Facts supply={supply} />
          {may(session, 'bench', 'desk') && <BookSupply supply={supply} done={loaded.reload} />}
          {may(session, 'owner') && <ChangeSupply key={supply.version} supply={supply} done={loaded.reload} />}
          {may(session, 'bench', 'desk') && <Movements supply={supply} done={loaded.reload} />}
        </>
      )}
    </Waiting>
  );
}

function Facts({
  supply: { kind, unit, onHand, packsOnHand, pack, orderPoint, order, value, supplier, safetySheet },
}: {
  supply: Supply;
}) {
  const words = useWords();
  const { say, named, number, money } = words;
  const { units } = useSession();
  const packs = say('supply.packs', { count: packsOnHand, shown: number(packsOnHand, Number.isInteger(packsOnHand) ? 0 : 2) });
  const quantity = (of: number) => saySupply(words, units, unit, of);
  const facts: [string, string | null | undefined | false][] = [
    [say('supply.kind'), named('supply.kind', kind)],
    [say('drawer.onHand'), `${quantity(onHand)} (${packs})`],
    [say('product.pack'), quantity(pack)],
    [say('supply.orderAt'), orderPoint !== null && quantity(orderPoint)],
    [say('supply.toOrder'), order > 0 && quantity(order)],
    [say('drawer.value'), value && money(value.amountMinor, value.currency)],
    [say('product.supplier'), supplier],
    [say('product.sheet'), safetySheet],
  ];
  return (
    <section class="card">
      <dl class="pairs">
        {facts.map(
          ([word, said]) =>
            said && (
              <div key={word}>
                <dt>{word}</dt>
                <dd class="figure">{said}</dd>
              </div>
            ),
        )}
      </dl>
    </section>
  );
}

const OWNERS: ReadonlySet<string> = new Set(['receive', 'write_off']);

function Movements({ supply: { id, unit, onHand, version }, done }: { supply: Supply; done: () => void }) {
  const words = useWords();
  const session = useSession();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/supply-movements', { params: { query: { supplyId: id, limit: 100 } }, signal })),
    [id, onHand, version],
  );
  return (
    <MovementTable
      of={loaded}
      amountOf={(one) => saySupply(words, session.units, unit, one.onHand)}
      atOf={({ at }) => at}
      mayTakeBack={({ kind }) => may(session, OWNERS.has(kind) ? 'owner' : 'bench')}
      takeBack={(wrong, sent) => takeSupplyBack(wrong.id, sent)}
      done={() => {
        loaded.reload();
        done();
      }}
    />
  );
}

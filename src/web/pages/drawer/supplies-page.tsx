import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Table, type Column } from '../../ui/table.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { AddSupply } from './add-supply.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { saySupply } from './say-supply.ts';
import type { Supply } from './supply-draft.ts';

/** Flux, pickle salt, gas, findings and stones: what there is, when to order, what it is worth. */
export function SuppliesPage() {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/supplies', { params: { query: { limit: 200 } }, signal })), []);
  return (
    <>
      <DrawerHead title={say('drawer.room.supplies')} />
      <Waiting of={loaded}>
        {({ items }) => {
          const [kept, left] = [items.filter(({ active }) => active), items.filter(({ active }) => !active)];
          return (
            <>
              {kept.length === 0 ? <p class="card">{say('supply.none')}</p> : <SupplyTable supplies={kept} />}
              {left.length > 0 && (
                <details class="card">
                  <summary>{say('supply.notKept', { count: left.length })}</summary>
                  <SupplyTable supplies={left} />
                </details>
              )}
            </>
          );
        }}
      </Waiting>
      {may(session, 'owner') && <AddSupply done={loaded.reload} />}
    </>
  );
}

function SupplyTable({ supplies }: { supplies: readonly Supply[] }) {
  const words = useWords();
  const { say, named, money } = words;
  const { units } = useSession();
  const columns: Column<Supply>[] = [
    { head: say('supply.what'), of: ({ id, name }) => <a href={`/drawer/supplies/${id}`}>{name}</a> },
    { head: say('supply.kind'), of: ({ kind }) => named('supply.kind', kind) },
    { head: say('drawer.onHand'), of: ({ unit, onHand }) => saySupply(words, units, unit, onHand), figure: true },
    {
      head: say('supply.orderAt'),
      of: ({ unit, orderPoint, orderNow }) =>
        orderPoint === null
          ? '–'
          : `${saySupply(words, units, unit, orderPoint)}${orderNow ? `, ${say('supply.orderNow')}` : ''}`,
      figure: true,
      mark: ({ orderNow }) => (orderNow ? 'late' : undefined),
    },
  ];
  const worth: Column<Supply> = {
    head: say('drawer.value'),
    of: ({ value }) => value && money(value.amountMinor, value.currency),
    figure: true,
  };
  const byName = supplies.toSorted((a, b) => a.name.localeCompare(b.name, words.locale));
  return (
    <Table
      label={say('drawer.room.supplies')}
      columns={supplies.some(({ value }) => value) ? [...columns, worth] : columns}
      rows={byName}
      keyOf={({ id }) => id}
      named
    />
  );
}

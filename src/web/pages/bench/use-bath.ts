import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { keep, readKept } from '../../offline/kept.ts';
import { useKeptList } from '../../offline/use-kept-list.ts';

export type Bath = Pick<ItemOf<'/api/v1/pickle-baths'>, 'id' | 'number' | 'acid' | 'state'>;

const USABLE: ReadonlySet<string> = new Set(['fresh', 'in_use', 'tiring']);
const LAST = 'bench-bath';

/** The baths that a heat may go into, and the one that is meant: that of last time at this device, till another is chosen. */
export function useBath(): { baths: Bath[]; bath: Bath | undefined; choose: (id: string) => void } {
  const baths = useKeptList('bench-baths', usableBaths);
  const [chosen, setChosen] = useState(() => readKept(LAST));
  const choose = (id: string) => {
    keep(LAST, id);
    setChosen(id);
  };
  return { baths, bath: baths.find(({ id }) => id === chosen) ?? baths[0], choose };
}

async function usableBaths(): Promise<Bath[]> {
  const { items } = await bodyOf(api.GET('/api/v1/pickle-baths', { params: { query: { limit: 200 } } }));
  return items
    .filter(({ state }) => USABLE.has(state))
    .map(({ id, number, acid, state }) => ({ id, number, acid, state }))
    .toSorted((a, b) => a.number.localeCompare(b.number));
}

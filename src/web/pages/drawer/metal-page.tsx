import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { AddMetal } from './add-metal.tsx';
import { BookMetal } from './book-metal.tsx';
import type { MetalLot } from './drawer-replies.ts';
import { DrawerHead } from './drawer-head.tsx';
import { MetalMark } from './metal-mark.tsx';
import { MetalProducts } from './metal-products.tsx';
import { ReceiveMetal } from './receive-metal.tsx';
import { ScrapJars } from './scrap-jars.tsx';

/** Metal, lot by lot, ours and what clients left; and the scrap jars. */
export function MetalPage() {
  const { say } = useWords();
  const session = useSession();
  const [products, setProducts] = useState(0);
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/metal-lots', { params: { query: { limit: 200 } }, signal })), []);
  return (
    <>
      <DrawerHead title={say('drawer.room.metal')} />
      <Waiting of={loaded}>
        {({ items }) => (
          <>
            <section class="card" aria-labelledby="metal">
              <h2 id="metal">{say('metal.lots')}</h2>
              {items.length === 0 && <p>{say('metal.noLots')}</p>}
              <ul class="plain-list">
                {items.map((lot) => (
                  <MetalLine key={lot.id} lot={lot} />
                ))}
              </ul>
            </section>
            {may(session, 'bench') && items.length > 0 && <BookMetal lots={items} done={loaded.reload} />}
          </>
        )}
      </Waiting>
      {may(session, 'desk') && <ReceiveMetal products={products} done={loaded.reload} />}
      {may(session, 'owner') && <AddMetal done={() => setProducts(products + 1)} />}
      {may(session, 'desk') && <MetalProducts round={products} done={() => setProducts(products + 1)} />}
      <ScrapJars />
    </>
  );
}

function MetalLine({ lot }: { lot: MetalLot }) {
  const { say } = useWords();
  return (
    <li class="line lot-line">
      <a href={`/drawer/metal/${lot.id}`}>{say('metal.lot', { number: lot.number, product: lot.productName })}</a>
      <MetalMark lot={lot} />
    </li>
  );
}

import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { ChangeMetal } from './change-metal.tsx';
import { sayPrice } from './price.ts';

/** The metals the studio buys, as their suppliers' lists have them. */
export function MetalProducts({ round, done }: { round: number; done: () => void }) {
  const words = useWords();
  const { say, named } = words;
  const session = useSession();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/metal-products', { params: { query: { limit: 200 } }, signal })),
    [round],
  );
  return (
    <Waiting of={loaded}>
      {({ items }) =>
        items.length > 0 && (
          <section class="card" aria-labelledby="metal-products">
            <h2 id="metal-products">{say('metal.products')}</h2>
            <ul class="plain-list">
              {items.map((product) => (
                <li key={product.id} class="line">
                  <p>
                    <strong>{product.name}</strong>{' '}
                    <span class="soft">
                      {[
                        product.metal,
                        named('metal.form', product.form.kind),
                        product.supplier,
                        product.price && sayPrice(words, product.price, session.studio.currency),
                      ]
                        .filter(Boolean)
                        .join(', ')}
                    </span>{' '}
                    {!product.active && <span class="word">{say('edit.notKept')}</span>}
                  </p>
                  {may(session, 'owner') && <ChangeMetal key={product.version} product={product} done={done} />}
                </li>
              ))}
            </ul>
          </section>
        )
      }
    </Waiting>
  );
}

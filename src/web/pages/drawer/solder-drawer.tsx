import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { AddProduct } from './add-product.tsx';
import { CadmiumWord } from './cadmium-word.tsx';
import { ChangeProduct } from './change-product.tsx';
import { DrawerHead } from './drawer-head.tsx';
import { sayWindow } from './melting-window.ts';
import type { SolderProduct } from './product-draft.ts';
import { ReceiveLot } from './receive-lot.tsx';

type Stock = Exclude<ReplyOf<'/api/v1/stock'>, string>;
type Product = Stock['items'][number];
type Lot = Product['lots'][number];

/** Every solder with what is on hand, held and free, lot by lot. */
export function SolderDrawer() {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded(drawerOf, []);
  return (
    <>
      <DrawerHead title={say('drawer.title')} />
      <Waiting of={loaded}>
        {({ items, asOf, known }) => (
          <>
            {items.length === 0 && <p class="card">{say('drawer.none')}</p>}
            {may(session, 'desk') && items.length > 0 && (
              <ReceiveLot today={asOf.slice(0, 10)} products={items.length} done={loaded.reload} />
            )}
            {items.map((product) => (
              <ProductCard
                key={product.productId}
                product={product}
                known={known.get(product.productId)}
                today={asOf.slice(0, 10)}
                done={loaded.reload}
              />
            ))}
          </>
        )}
      </Waiting>
      {may(session, 'owner') && <AddProduct done={loaded.reload} />}
    </>
  );
}

async function drawerOf(signal: AbortSignal): Promise<Stock & { known: ReadonlyMap<string, SolderProduct> }> {
  const [stock, products] = await Promise.all([
    bodyOf(api.GET('/api/v1/stock', { signal })),
    bodyOf(api.GET('/api/v1/solder-products', { params: { query: { limit: 200 } }, signal })),
  ]);
  return { ...(stock as Stock), known: new Map(products.items.map((one) => [one.id, one])) };
}

function ProductCard({
  product,
  known,
  today,
  done,
}: {
  product: Product;
  known: SolderProduct | undefined;
  today: string;
  done: () => void;
}) {
  const words = useWords();
  const { say, named, money } = words;
  const session = useSession();
  const { units } = session;
  const { productId, name, gradeWord, form, onHandG, heldG, freeG, value, lots } = product;
  const here = lots.filter((lot) => !isGone(lot));
  const gone = lots.filter(isGone);
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams);
  return (
    <section class="card" aria-labelledby={`product-${productId}`}>
      <h2 id={`product-${productId}`}>{name}</h2>
      <p class="soft">
        {gradeWord}, {named('solderForm', form)}
        {known && `; ${sayWindow(words, units, known)}`}
      </p>
      <dl class="pairs columns">
        <Pair word={say('drawer.onHand')} value={mass(onHandG)} />
        <Pair word={say('drawer.held')} value={mass(heldG)} />
        <Pair word={say('drawer.free')} value={mass(freeG)} />
        {value && <Pair word={say('drawer.value')} value={money(value.amountMinor, value.currency)} />}
      </dl>
      {freeG < 0 && <p class="late">{say('drawer.short')}</p>}
      {here.length === 0 && <p>{say('drawer.noLots')}</p>}
      <LotList lots={here} today={today} />
      {known && may(session, 'owner') && <ChangeProduct key={known.version} product={known} done={done} />}
      {gone.length > 0 && (
        <details>
          <summary>{say('drawer.gone', { count: gone.length })}</summary>
          <LotList lots={gone} today={today} />
        </details>
      )}
    </section>
  );
}

function isGone({ state }: Lot): boolean {
  return state === 'finished' || state === 'written_off';
}

function Pair({ word, value }: { word: string; value: string }) {
  return (
    <div>
      <dt>{word}</dt>
      <dd class="figure">{value}</dd>
    </div>
  );
}

function LotList({ lots, today }: { lots: readonly Lot[]; today: string }) {
  const words = useWords();
  const { say, tell, named, date } = words;
  const { units } = useSession();
  return (
    <ul class="plain-list">
      {lots.map(({ lotId, number, onHandG, markOnMetal, state, stateReason, useBy, cadmiumStanding }) => (
        <li key={lotId} class="line lot-line">
          <a href={`/lots/${lotId}`}>{say('drawer.lot', { number })}</a>
          <span class="figure">{showQuantity(words, units, 'mass', onHandG)}</span>
          <span class="word">{named('lot.state', state)}</span>
          <span>{markOnMetal === null ? say('drawer.unmarked') : say('drawer.mark', { mark: markOnMetal })}</span>
          {useBy !== null && (
            <span class={useBy < today ? 'late' : 'soft'}>
              {say(useBy < today ? 'drawer.useByPast' : 'drawer.useBy', { date: date(useBy) })}
            </span>
          )}
          <CadmiumWord standing={cadmiumStanding} />
          {stateReason !== null && <span class="soft">{tell(stateReason)}</span>}
        </li>
      ))}
    </ul>
  );
}

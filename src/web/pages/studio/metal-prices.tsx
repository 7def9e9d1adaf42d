import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import type { MassUnit } from '../../units/mass-unit.ts';
import { inField } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { PerChoice } from './fine-price.tsx';
import type { OwnPlace } from './setting-values.ts';

interface Price {
  amount: string;
  per: MassUnit;
}

/** What the studio pays for each metal it buys, for the weight it was told for. */
export function MetalPrices({ settings, typed, type, error }: OwnPlace) {
  const { say, tell, locale } = useWords();
  const { studio, units } = useSession();
  const metals = useLoaded((signal) => bodyOf(api.GET('/api/v1/metals', { signal })), []);
  const known = metals.value?.items ?? [];
  const nameOf = (id: string) => tell(known.find((metal) => metal.id === id)?.name ?? id);
  const now = new Map<string, Price>(Object.entries(settings.metalPrices as Record<string, Price>));
  for (const [path, price] of Object.entries(typed)) {
    const id = /^metalPrices\/(.+)$/.exec(path)?.[1];
    if (id === undefined) continue;
    if (price === null) now.delete(id);
    else now.set(id, price as Price);
  }
  const take = (id: string, price: Price | null) => type(`metalPrices/${id}`, price);
  const unpriced = known.filter(({ id }) => !now.has(id));
  return (
    <fieldset>
      <legend>{say('metalPrice.title')}</legend>
      {now.size === 0 && <p>{say('metalPrice.none')}</p>}
      {[...now].map(([id, price]) => (
        <div key={id} class="columns">
          <Field
            label={say('metalPrice.amountOf', { metal: nameOf(id), currency: studio.currency })}
            inputMode="decimal"
            value={`metalPrices/${id}` in typed ? price.amount : inField(price.amount, locale)}
            onValue={(amount) => take(id, { ...price, amount })}
            error={error}
            pointer={`/metalPrices/${id}/amount`}
          />
          <PerChoice
            label={say('metalPrice.perOf', { metal: nameOf(id) })}
            value={price.per}
            onValue={(per) => take(id, { ...price, per })}
          />
          <Button kind="quiet" aria-label={say('metalPrice.removeOf', { metal: nameOf(id) })} onClick={() => take(id, null)}>
            {say('metalPrice.remove')}
          </Button>
        </div>
      ))}
      <Select
        label={say('metalPrice.add')}
        value=""
        onValue={(id) => id !== '' && take(id, { amount: '', per: units.mass })}
        choices={[{ value: '', label: '–' }, ...unpriced.map(({ id }) => ({ value: id, label: nameOf(id) }))]}
      />
    </fieldset>
  );
}

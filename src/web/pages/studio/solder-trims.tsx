import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { inField } from '../../units/typed-number.ts';
import { Field } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { SOLDER_TRIM, type OwnPlace } from './setting-values.ts';

/** How much more of each solder is laid on than stays in the joint; a stocktake offers the true share. */
export function SolderTrims({ settings, typed, type, error }: OwnPlace) {
  const { say, locale } = useWords();
  const products = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/solder-products', { params: { query: { limit: 200 } }, signal })),
    [],
  );
  const known = products.value?.items ?? [];
  if (known.length === 0) return null;
  const kept = (code: string) => {
    const fraction = settings.solderTrims[code];
    return fraction === undefined ? '' : inField(String(Number((fraction * 100).toPrecision(12))), locale);
  };
  return (
    <fieldset>
      <legend>{say('setting.solderTrims')}</legend>
      <div class="columns">
        {known.map(({ id, code, name }) => {
          const now = typed[`${SOLDER_TRIM}${code}`];
          return (
            <Field
              key={id}
              label={say('setting.solderTrimOf', { name })}
              hint={say('setting.solderTrimHint')}
              inputMode="decimal"
              value={typeof now === 'string' ? now : kept(code)}
              onValue={(percent) => type(`${SOLDER_TRIM}${code}`, percent)}
              error={error}
              pointer={`/solderTrims/${code}`}
            />
          );
        })}
      </div>
    </fieldset>
  );
}

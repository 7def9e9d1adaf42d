import { useSession } from '../../session/session.ts';
import { gramsPer, MASS_UNITS, type MassUnit } from '../../units/mass-unit.ts';
import { Field, Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { perGram, type OwnPlace, type TypedFinePrice } from './setting-values.ts';

/** What fine silver costs, from where and of which day: nobody but a person says so. */
export function FinePrice({ settings: { finePrice }, typed, type, error }: OwnPlace) {
  const { say, number, moment } = useWords();
  const { studio, units } = useSession();
  const now = (typed['finePrice'] as TypedFinePrice | undefined) ?? {
    amount: '',
    per: units.mass,
    source: finePrice?.source ?? '',
    on: new Date().toLocaleDateString('sv-SE', { timeZone: studio.timeZone }),
  };
  const take = (change: Partial<TypedFinePrice>) => type('finePrice', { ...now, ...change });
  const amount = (perG: number, per: MassUnit) => `${number(perG * gramsPer(per), 2)} ${studio.currency}`;
  const comes = perGram(now);
  return (
    <fieldset>
      <legend>{say('fine.title')}</legend>
      <p>
        {finePrice
          ? say('fine.now', {
              perG: amount(Number(finePrice.perG), 'g'),
              perOzt: amount(Number(finePrice.perG), 'ozt'),
              source: finePrice.source,
              at: moment(finePrice.typedAt, studio.timeZone),
            })
          : say('fine.none')}
      </p>
      <div class="columns">
        <Field
          label={say('fine.amount', { currency: studio.currency })}
          inputMode="decimal"
          value={now.amount}
          onValue={(value) => take({ amount: value })}
          error={error}
          pointer="/finePrice/perG"
          hint={comes !== undefined && now.per !== 'g' ? say('fine.comes', { amount: amount(Number(comes), 'g') }) : ''}
        />
        <PerChoice label={say('fine.per')} value={now.per} onValue={(per) => take({ per })} />
        <Field
          label={say('fine.source')}
          value={now.source}
          onValue={(source) => take({ source })}
          error={error}
          pointer="/finePrice/source"
        />
        <Field
          label={say('fine.on')}
          type="date"
          value={now.on}
          onValue={(on) => take({ on })}
          error={error}
          pointer="/finePrice/typedAt"
        />
      </div>
    </fieldset>
  );
}

/** For which weight a price is. */
export function PerChoice({ label, value, onValue }: { label: string; value: string; onValue: (per: MassUnit) => void }) {
  const { say } = useWords();
  return (
    <Select
      label={label}
      value={value}
      onValue={(per) => onValue(per as MassUnit)}
      choices={MASS_UNITS.map((per) => ({ value: per, label: say(`per.${per}`) }))}
    />
  );
}

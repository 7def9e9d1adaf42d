import { inField } from '../../units/typed-number.ts';
import { Field, Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { sentSetting, type OwnPlace, type TypedProfit } from './setting-values.ts';

/** Margin or markup: exactly one is typed, both are shown. */
export function ProfitInput({ settings, typed, type, error }: OwnPlace) {
  const { say, percent, locale } = useWords();
  const now = (typed['profit'] as TypedProfit | undefined) ?? keptAs(settings.profit, locale);
  const take = (change: Partial<TypedProfit>) => type('profit', { ...now, ...change });
  const fraction = sentSetting(now.percent, 'percent');
  const other = typeof fraction === 'number' ? otherOf(now.said, fraction) : undefined;
  return (
    <fieldset>
      <legend>{say('profit.title')}</legend>
      <div class="columns">
        <Select
          label={say('profit.type')}
          value={now.said}
          onValue={(said) => take({ said: said === 'markup' ? 'markup' : 'margin' })}
          choices={(['margin', 'markup'] as const).map((value) => ({ value, label: say(`profit.${value}`) }))}
        />
        <Field
          label={say(`profit.${now.said}`)}
          inputMode="decimal"
          value={now.percent}
          onValue={(text) => take({ percent: text })}
          error={error}
          pointer={`/profit/${now.said}Fraction`}
          hint={
            other === undefined
              ? ''
              : say('profit.same', {
                  percent: percent(other, 1),
                  other: say(now.said === 'margin' ? 'profit.asMarkup' : 'profit.asMargin'),
                })
          }
        />
      </div>
    </fieldset>
  );
}

function keptAs(profit: OwnPlace['settings']['profit'], locale: string): TypedProfit {
  const percent = (fraction: number) => inField(String(Number((fraction * 100).toPrecision(12))), locale);
  return 'markupFraction' in profit
    ? { said: 'markup', percent: percent(profit.markupFraction) }
    : { said: 'margin', percent: percent(profit.marginFraction) };
}

/** A margin m of the price is a markup m / (1 − m) on the cost, and the other way round. */
function otherOf(said: TypedProfit['said'], fraction: number): number | undefined {
  if (said === 'markup') return fraction / (1 + fraction);
  return fraction < 1 ? fraction / (1 - fraction) : undefined;
}

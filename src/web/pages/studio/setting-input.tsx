import { Field, Select, TextArea, Tick } from '../../ui/field.tsx';
import { useSession } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import type { SettingOf } from './settings-fields.ts';

interface Props {
  field: SettingOf;
  value: unknown;
  onValue: (value: unknown) => void;
  error: Error | undefined;
}

/** One setting, typed as its kind is. */
export function SettingInput({ field, value, onValue, error }: Props) {
  const { say, named, locale } = useWords();
  const { studio } = useSession();
  const { path, kind } = field;
  const label = say(`setting.${path}`, { currency: studio.currency });
  const pointer = `/${path.replaceAll('.', '/')}`;
  const text = typeof value === 'string' ? value : '';
  switch (kind) {
    case 'tick':
      return <Tick label={label} checked={value === true} onChecked={onValue} />;
    case 'weekdays': {
      const days = value as number[];
      return (
        <fieldset class="weekdays">
          <legend>{label}</legend>
          <div class="row">
            {[1, 2, 3, 4, 5, 6, 7].map((day) => (
              <Tick
                key={day}
                // The first of January 2024 was a Monday.
                label={new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }).format(Date.UTC(2024, 0, day))}
                checked={days.includes(day)}
                onChecked={(checked) =>
                  onValue([...days.filter((one) => one !== day), ...(checked ? [day] : [])].sort((a, b) => a - b))
                }
              />
            ))}
          </div>
        </fieldset>
      );
    }
    case 'choice':
      return (
        <Select
          label={label}
          value={text}
          onValue={onValue}
          choices={[...(text === 'own' ? ['own'] : []), ...field.options].map((option) => ({
            value: option,
            label: optionWord(path, option, named),
          }))}
          error={error}
          pointer={pointer}
        />
      );
    case 'lines':
      return <TextArea label={label} value={text} onValue={onValue} error={error} pointer={pointer} />;
    case 'time':
      return <Field label={label} type="time" value={text} onValue={onValue} error={error} pointer={pointer} />;
    case 'number':
    case 'percent':
    case 'amount':
    case 'coins':
      return <Field label={label} inputMode="decimal" value={text} onValue={onValue} error={error} pointer={pointer} />;
    case 'text':
      return <Field label={label} value={text} onValue={onValue} error={error} pointer={pointer} />;
  }
}

/** Languages and units have their words already. */
function optionWord(path: string, option: string, named: (group: string, value: string) => string): string {
  if (path === 'language') return named('language', option);
  if (path.startsWith('units.')) return named('unit', option);
  return named(`setting.${path}`, option);
}

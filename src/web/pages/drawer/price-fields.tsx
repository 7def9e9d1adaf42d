import { MASS_UNITS, type MassUnit } from '../../units/mass-unit.ts';
import { Field, Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';

interface Props {
  label: string;
  amount: string;
  per: MassUnit;
  onValue: (price: { amount: string; per: MassUnit }) => void;
  error: Error | undefined;
  /** Where the price is in what is sent. */
  pointer: string;
}

/** Money for a weight: the amount, and for a gram, a pennyweight or a troy ounce. */
export function PriceFields({ label, amount, per, onValue, error, pointer }: Props) {
  const { say } = useWords();
  return (
    <>
      <Field
        label={label}
        value={amount}
        onValue={(typed) => onValue({ amount: typed, per })}
        inputMode="decimal"
        autoComplete="off"
        error={error}
        pointer={`${pointer}/amount`}
        required
      />
      <Select
        label={say('receive.per')}
        value={per}
        onValue={(unit) => onValue({ amount, per: unit as MassUnit })}
        choices={MASS_UNITS.map((value) => ({ value, label: say(`mass.${value}`) }))}
      />
    </>
  );
}

import { Field } from '../../ui/field.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { numberOf } from '../../units/typed-number.ts';

interface Props {
  label: string;
  hint?: string;
  unit: 'g' | 'piece';
  value: number | undefined;
  onValue: (value: number | undefined) => void;
  error: Error | undefined;
  pointer: string;
}

/** How much of a supply: a weight in any unit, or a count. */
export function SupplyQuantity({ unit, value, onValue, ...field }: Props) {
  if (unit === 'g') return <QuantityField {...field} quantity="mass" value={value} onValue={onValue} />;
  return (
    <Field
      {...field}
      inputMode="numeric"
      value={value === undefined ? '' : String(value)}
      onValue={(typed) => onValue(numberOf(typed))}
    />
  );
}

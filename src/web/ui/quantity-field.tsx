import { useEffect, useState } from 'preact/hooks';
import { useSession } from '../session/session.ts';
import { codeFor, showQuantity } from '../units/shown-units.ts';
import { readQuantity, UNIT_WORDS, type Quantity, type Typed } from '../units/typed-quantity.ts';
import { inField } from '../units/typed-number.ts';
import { useWords, type Words } from '../words/words.ts';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { Under, useRefusal } from './field.tsx';

interface Props {
  label: string;
  quantity: Quantity;
  /** In mm, °C or g; undefined for an empty field. */
  value: number | undefined;
  /** What was typed, when it was in another unit than the stored one. */
  entered?: string | undefined;
  onValue: (value: number | undefined, entered: string | null) => void;
  /** A thickness: a person who reads gauge types it bare. */
  thickness?: boolean;
  error?: Error | undefined;
  pointer?: string;
  hint?: string;
}

/** A field that takes any unit, typed after the number ("18 ga", "1300F"), and shows what it comes to. */
export function QuantityField({ label, quantity, value, entered, onValue, thickness = false, error, pointer, hint }: Props) {
  const { units } = useSession();
  const words = useWords();
  const code = codeFor(quantity, units, thickness);
  const shown = () => entered ?? (value === undefined ? '' : shownText(value, { quantity, code, locale: words.locale }));
  const [text, setText] = useState(shown);
  const [typed, setTyped] = useState<Typed>({ outcome: 'empty' });
  const { id, describedBy, refusal } = useRefusal({ error, pointer });
  useEffect(() => {
    const now = readQuantity(text, quantity, code);
    if (now.outcome !== 'value' ? value !== undefined : now.value !== value) setText(shown());
  }, [value]);
  const take = (input: string) => {
    setText(input);
    const now = readQuantity(input, quantity, code);
    setTyped(now);
    if (now.outcome === 'value') onValue(now.value, now.entered);
    else if (now.outcome === 'empty') onValue(undefined, null);
  };
  const fault = faultOf(typed, words);
  const comesTo =
    typed.outcome === 'value' && typed.entered ? `= ${showQuantity(words, units, quantity, typed.value)}` : undefined;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <span class="with-unit">
        <input
          id={id}
          value={text}
          inputMode="text"
          autoComplete="off"
          aria-invalid={fault !== undefined || refusal !== undefined}
          aria-describedby={describedBy}
          onInput={(event) => take(event.currentTarget.value)}
        />
        <span aria-hidden="true">{UNIT_WORDS[code]}</span>
      </span>
      <Under id={describedBy} refusal={fault ?? refusal} hint={comesTo ?? hint} />
    </div>
  );
}

function shownText(value: number, { quantity, code, locale }: { quantity: Quantity; code: string; locale: string }): string {
  const stored = { length: 'mm', temperature: 'Cel', mass: 'g' }[quantity];
  const shown = code === stored ? value : Number(convertUnit({ value, from: stored, to: code }).toPrecision(5));
  return inField(String(shown), locale);
}

function faultOf(typed: Typed, { say, tell, number }: Words): string | undefined {
  switch (typed.outcome) {
    case 'ambiguous':
      return say('quantity.ambiguous', { whole: number(typed.readings[0]), broken: String(typed.readings[1]) });
    case 'unknown_unit':
      return say('quantity.unknownUnit', { unit: typed.unit, known: typed.known.join(', ') });
    case 'not_a_number':
      return say('quantity.notANumber');
    case 'outside':
      return tell(typed.detail);
    case 'empty':
    case 'value':
      return undefined;
  }
}

import { useEffect, useState } from 'preact/hooks';
import { ApiProblem } from '../../api/problem.ts';
import { Field, Select, Tick, type Choice } from '../../ui/field.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { inField } from '../../units/typed-number.ts';
import { readNumber, type Quantity } from '../../units/typed-quantity.ts';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { at, put } from './draft.ts';

interface AtPointer {
  /** Where it stands in the design, which is also where the server says that it is wrong. */
  pointer: string;
  label: string;
  hint?: string | undefined;
}

/** A length, temperature or weight of the design, in any unit. */
export function SizeField({
  pointer,
  label,
  hint,
  quantity = 'length',
  gauged = false,
}: AtPointer & { quantity?: Quantity; gauged?: boolean }) {
  const { draft, edit, error } = useDesign();
  const value = at(draft, pointer);
  return (
    <QuantityField
      label={label}
      quantity={quantity}
      thickness={gauged}
      value={typeof value === 'number' ? value : undefined}
      entered={draft.entered[pointer]}
      onValue={(given, typed) => edit((before) => put(before, pointer, given, typed), pointer)}
      error={error}
      pointer={pointer}
      {...(hint !== undefined && { hint })}
    />
  );
}

/** A plain number of the design; `per` is what one of it counts as, 0.01 for a percentage. */
export function NumberField({ pointer, label, hint, per = 1 }: AtPointer & { per?: number }) {
  const { draft, edit, error } = useDesign();
  const { say, locale } = useWords();
  const value = at(draft, pointer);
  const shown = typeof value === 'number' ? inField(String(Number((value / per).toPrecision(12))), locale) : '';
  const [text, setText] = useState(shown);
  const read = readNumber(text.trim());
  useEffect(() => {
    if (text.trim() === '' ? value !== undefined : typeof read !== 'number' || read * per !== value) setText(shown);
  }, [value]);
  const wrong = text.trim() !== '' && typeof read !== 'number';
  return (
    <Field
      label={label}
      value={text}
      inputMode="decimal"
      autoComplete="off"
      error={error}
      pointer={pointer}
      {...((wrong || hint !== undefined) && { hint: wrong ? say('quantity.notANumber') : hint! })}
      onValue={(typed) => {
        setText(typed);
        const now = readNumber(typed.trim());
        if (typed.trim() === '') edit((before) => put(before, pointer, undefined), pointer);
        else if (typeof now === 'number') edit((before) => put(before, pointer, now * per), pointer);
      }}
    />
  );
}

/** A word of the design, such as a name; an empty one is left out. */
export function WordField({ pointer, label }: AtPointer) {
  const { draft, edit, error } = useDesign();
  const value = at(draft, pointer);
  return (
    <Field
      label={label}
      value={typeof value === 'string' ? value : ''}
      maxLength={60}
      autoComplete="off"
      error={error}
      pointer={pointer}
      onValue={(typed) => edit((before) => put(before, pointer, typed === '' ? undefined : typed), pointer)}
    />
  );
}

/** One of a few for the design; '' leaves it out. */
export function ChoiceField({ pointer, label, choices }: AtPointer & { choices: readonly Choice[] }) {
  const { draft, edit, error } = useDesign();
  const value = at(draft, pointer);
  return (
    <Select
      label={label}
      value={typeof value === 'string' ? value : ''}
      choices={choices}
      error={error}
      pointer={pointer}
      onValue={(chosen) => edit((before) => put(before, pointer, chosen === '' ? undefined : chosen))}
    />
  );
}

export function TickField({ pointer, label }: AtPointer) {
  const { draft, edit } = useDesign();
  return (
    <Tick
      label={label}
      checked={at(draft, pointer) === true}
      onChecked={(ticked) => edit((before) => put(before, pointer, ticked ? true : undefined))}
    />
  );
}

/** The short name by which a part or joint is known to joints and rules: taken when it is left, if it can be one. */
export function IdField({
  id,
  taken,
  label,
  pointer,
  onId,
}: {
  id: string;
  taken: readonly string[];
  label: string;
  pointer: string;
  onId: (id: string) => void;
}) {
  const { error } = useDesign();
  const { say } = useWords();
  const [text, setText] = useState(id);
  useEffect(() => setText(id), [id]);
  const fault = !/^[\w.#-]{1,60}$/.test(text)
    ? say('design.id.letters')
    : text !== id && taken.includes(text)
      ? say('design.id.taken', { id: text })
      : undefined;
  return (
    <div
      onFocusOut={() => {
        if (fault === undefined && text !== id) onId(text);
        else setText(id);
      }}
    >
      <Field
        label={label}
        value={text}
        autoComplete="off"
        autocapitalize="none"
        error={error}
        pointer={pointer}
        {...(fault !== undefined && { hint: fault })}
        onValue={setText}
      />
    </div>
  );
}

/** What the server refused that belongs to a part or joint as a whole, or to a field that it does not show. */
export function refusalsUnder(error: Error | undefined, pointer: string): string[] {
  if (!(error instanceof ApiProblem)) return [];
  return error.errors
    .filter((one) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`))
    .map(({ detail }) => detail);
}

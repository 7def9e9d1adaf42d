import { useId } from 'preact/hooks';
import type { InputHTMLAttributes } from 'preact';
import { ApiProblem } from '../api/problem.ts';
import { useWords } from '../words/words.ts';

interface FieldProps {
  label: string;
  hint?: string;
  /** The refusal of the whole form: what it says of this field stands under it. */
  error?: Error | undefined;
  /** Where this field is in what was sent, such as /name. */
  pointer?: string;
}

type InputProps = FieldProps & {
  value: string;
  onValue: (value: string) => void;
  type?: 'text' | 'password' | 'email' | 'tel' | 'date' | 'time' | 'number' | 'search';
  inputMode?: 'text' | 'decimal' | 'numeric';
  autoComplete?: string;
  autocapitalize?: 'none' | 'sentences';
  placeholder?: string;
  maxLength?: number;
  min?: string | number;
  max?: string | number;
  required?: boolean;
  disabled?: boolean;
};

/** A labelled line of input; a refusal of the server that points at it is shown beneath. */
export function Field({ label, hint, error, pointer, value, onValue, ...input }: InputProps) {
  const { id, describedBy, refusal } = useRefusal({ error, pointer });
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        {...(input as InputHTMLAttributes)}
        id={id}
        value={value}
        aria-invalid={refusal !== undefined}
        aria-describedby={describedBy}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      <Under id={describedBy} refusal={refusal} hint={hint} />
    </div>
  );
}

export interface Choice {
  value: string;
  label: string;
}

/** A choice of a few. */
export function Select({
  label,
  hint,
  error,
  pointer,
  value,
  onValue,
  choices,
  disabled,
}: FieldProps & { value: string; onValue: (value: string) => void; choices: readonly Choice[]; disabled?: boolean }) {
  const { id, describedBy, refusal } = useRefusal({ error, pointer });
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        disabled={disabled}
        aria-invalid={refusal !== undefined}
        aria-describedby={describedBy}
        onChange={(event) => onValue(event.currentTarget.value)}
      >
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
      <Under id={describedBy} refusal={refusal} hint={hint} />
    </div>
  );
}

/** Several lines. */
export function TextArea({
  label,
  hint,
  error,
  pointer,
  value,
  onValue,
  rows = 3,
  maxLength,
}: FieldProps & { value: string; onValue: (value: string) => void; rows?: number; maxLength?: number }) {
  const { id, describedBy, refusal } = useRefusal({ error, pointer });
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={rows}
        maxLength={maxLength}
        value={value}
        aria-invalid={refusal !== undefined}
        aria-describedby={describedBy}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      <Under id={describedBy} refusal={refusal} hint={hint} />
    </div>
  );
}

/** A box to tick. */
export function Tick({
  label,
  checked,
  onChecked,
  disabled,
}: {
  label: string;
  checked: boolean;
  onChecked: (checked: boolean) => void;
  disabled?: boolean;
}) {
  return (
    <label class="tick">
      <input type="checkbox" checked={checked} disabled={disabled} onChange={(event) => onChecked(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}

/** What the server said of one field, and the ids that tie it to its input. */
export function useRefusal({ error, pointer }: { error?: Error | undefined; pointer?: string | undefined }) {
  const id = useId();
  const { tell } = useWords();
  const refused =
    error instanceof ApiProblem && pointer !== undefined ? error.errors.find((one) => one.pointer === pointer) : undefined;
  return { id, describedBy: `${id}-under`, refusal: refused && tell(refused.detail) };
}

export function Under({ id, refusal, hint }: { id: string; refusal: string | undefined; hint: string | undefined }) {
  return (
    <p id={id} class={refusal === undefined ? 'under' : 'under under-refusal'}>
      {refusal ?? hint}
    </p>
  );
}

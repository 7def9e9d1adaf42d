import { useRef, useState } from 'preact/hooks';
import type { paths } from '../api/api-schema.d.ts';
import { api, bodyOf } from '../api/client.ts';
import { doneHere, idempotencyKey } from '../api/device.ts';
import { ApiProblem } from '../api/problem.ts';
import { useSending } from '../api/use-sending.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';
import { Field, Select, Tick } from './field.tsx';
import { ProblemNotice } from './problem-notice.tsx';
import { QuantityField } from './quantity-field.tsx';
import { JustDone, type Sent } from './take-back.tsx';

/** Something a move wants to know; its words are "<words>.field.<name>", those of its options "<words>.field.<name>.<option>". */
export type MoveField = { name: string } & (
  { kind: 'mass' | 'text' | 'date' | 'number' | 'tick' } | { kind: 'ticks' | 'choice'; options: readonly string[] }
);

export type MoveSent = ReturnType<typeof doneHere> & { from: string; to: string; [field: string]: unknown };

type MovesOf = Extract<keyof paths, `/api/v1/${string}/{id}/moves`>;

interface Props {
  thing: { id: string; state: string; allowedMoves: readonly string[] };
  /** Where its moves are sent. */
  to: MovesOf;
  /** The group of words that names its moves, such as "commission.move". */
  words: string;
  /** What each move wants to know first; a move that is not here is made at a tap. */
  asks?: Readonly<Record<string, readonly MoveField[]>>;
  /** What is sent, where it is more than what was said. */
  bodyFrom?: (move: MoveSent) => object;
  done: () => void;
  /** The owner may say so against a condition. */
  mayOverride?: boolean;
  /** The move that undoes one; back to where it was, unless said otherwise. Offered where it is allowed and asks nothing but a reason. */
  undoneBy?: (move: { from: string; to: string }) => string;
}

interface Made {
  id: string;
  from: string;
  to: string;
  isBack: boolean;
}

/** A button for every move that is allowed now. One that is refused until something is said says what, and takes a reason. */
export function Moves({
  thing,
  to: path,
  words,
  asks = {},
  bodyFrom = (move) => move,
  done,
  mayOverride = false,
  undoneBy = ({ from }) => from,
}: Props) {
  const { say, named } = useWords();
  const [to, setTo] = useState<string>();
  const [said, setSaid] = useState<Readonly<Record<string, unknown>>>({});
  const [made, setMade] = useState<Made>();
  const target = useRef('');
  // Which moves there are and what they want the server alone knows: it says what was wrong.
  const post = (move: { to: string; [field: string]: unknown }, headers: Record<string, string>) => {
    const body = bodyFrom({ from: thing.state, ...doneHere(), ...move });
    return bodyOf(api.POST(path, { params: { path: { id: thing.id } }, body, headers } as never));
  };
  const sending = useSending(async (confirming) => {
    // Sent anew it is another try: under the old key the server would repeat its old answer.
    const headers = { 'idempotency-key': idempotencyKey(), ...confirming };
    await post({ to: target.current, ...said }, headers);
    setTo(undefined);
    setSaid({});
    setMade({ id: headers['idempotency-key'], from: thing.state, to: target.current, isBack: false });
    done();
  });
  const undo = made && thing.state === made.to ? undoneBy(made) : undefined;
  const isAskedAlone = (asks[undo ?? ''] ?? []).every(({ name }) => name === 'reason');
  const mayUndo = undo !== undefined && thing.allowedMoves.includes(undo) && isAskedAlone;
  const last = made && {
    id: made.id,
    says: say('moves.done', { move: named(words, made.to) }),
    ...(mayUndo && {
      takeBack: async ({ reason, headers }: Sent) => {
        await post({ to: undo, reason }, headers);
        setMade({ ...made, isBack: true });
      },
    }),
  };
  const begin = (chosen: string) => {
    setTo(chosen);
    setMade(undefined);
    setSaid({});
    sending.clear();
    target.current = chosen;
    if (asks[chosen] === undefined) void sending.send();
  };
  const set = (name: string, value: unknown) => setSaid((before) => ({ ...before, [name]: value }));
  const fields = to === undefined ? [] : (asks[to] ?? []);
  const wantsReason = sending.error instanceof ApiProblem && sending.error.slug === 'condition-not-met';
  return (
    <div class="moves">
      <div class="row">
        {thing.allowedMoves.map((one) => (
          <Button key={one} busy={sending.busy && one === to} aria-expanded={asks[one] && one === to} onClick={() => begin(one)}>
            {named(words, one)}
          </Button>
        ))}
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
      <JustDone done={last} after={done} />
      {to !== undefined && (fields.length > 0 || wantsReason) && (
        <div class="card">
          {fields.map((field) => (
            <Asked
              key={field.name}
              field={field}
              words={words}
              value={said[field.name]}
              error={sending.error}
              onValue={(value) => set(field.name, value)}
            />
          ))}
          {wantsReason && (
            <>
              {fields.every(({ name }) => name !== 'reason') && (
                <Field
                  label={say('moves.reason')}
                  value={typeof said['reason'] === 'string' ? said['reason'] : ''}
                  onValue={(reason) => set('reason', reason === '' ? undefined : reason)}
                  maxLength={200}
                />
              )}
              {mayOverride && (
                <Tick
                  label={say('moves.override')}
                  checked={said['override'] === true}
                  onChecked={(checked) => set('override', checked ? true : undefined)}
                />
              )}
            </>
          )}
          <Button kind="main" busy={sending.busy} onClick={() => void sending.send()}>
            {named(words, to)}
          </Button>
        </div>
      )}
    </div>
  );
}

interface AskedProps {
  field: MoveField;
  words: string;
  value: unknown;
  error: Error | undefined;
  onValue: (value: unknown) => void;
}

function Asked({ field, words, value, error, onValue }: AskedProps) {
  const { named } = useWords();
  const label = named(`${words}.field`, field.name);
  const pointer = `/${field.name}`;
  switch (field.kind) {
    case 'mass':
      return (
        <QuantityField
          label={label}
          quantity="mass"
          value={typeof value === 'number' ? value : undefined}
          onValue={onValue}
          error={error}
          pointer={pointer}
        />
      );
    case 'number':
      return (
        <Field
          label={label}
          type="number"
          inputMode="decimal"
          value={typeof value === 'number' ? String(value) : ''}
          onValue={(text) => onValue(text === '' ? undefined : Number(text))}
          error={error}
          pointer={pointer}
        />
      );
    case 'text':
    case 'date':
      return (
        <Field
          label={label}
          type={field.kind}
          value={typeof value === 'string' ? value : ''}
          onValue={(text) => onValue(text === '' ? undefined : text)}
          error={error}
          pointer={pointer}
        />
      );
    case 'tick':
      return <Tick label={label} checked={value === true} onChecked={(checked) => onValue(checked)} />;
    case 'choice':
      return (
        <Select
          label={label}
          value={typeof value === 'string' ? value : ''}
          onValue={(chosen) => onValue(chosen === '' ? undefined : chosen)}
          choices={['', ...field.options].map((one) => ({
            value: one,
            label: one === '' ? '–' : named(`${words}.field.${field.name}`, one),
          }))}
        />
      );
    case 'ticks': {
      const ticked = Array.isArray(value) ? (value as string[]) : [];
      return (
        <fieldset>
          <legend>{label}</legend>
          {field.options.map((one) => (
            <Tick
              key={one}
              label={named(`${words}.field.${field.name}`, one)}
              checked={ticked.includes(one)}
              onChecked={(checked) => onValue(checked ? [...ticked, one] : ticked.filter((other) => other !== one))}
            />
          ))}
        </fieldset>
      );
    }
  }
}

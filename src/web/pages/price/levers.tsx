import { useState } from 'preact/hooks';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { useMetalNames } from '../../ui/use-metal-names.ts';
import { useWords } from '../../words/words.ts';
import type { Base, Profit } from './base-price.ts';
import { keyOf, MARGIN, MARKUP, shownIn, type, untype, valueAt, type Fault, type Typed } from './typed-changes.ts';

interface Props {
  base: Base;
  profit: Profit;
  typed: Typed;
  faults: ReadonlyMap<string, Fault>;
  error: Error | undefined;
  change: (typed: Typed) => void;
}

const METHODS = ['per_line', 'on_total', 'gross_rounded_up'] as const;

/** Every number of the price that may be typed in place of the book's, with what stands there now. */
export function Levers(props: Props) {
  const { base, profit, typed, change } = props;
  const { say, named, locale } = useWords();
  const nameOf = useMetalNames();
  const { policy, labour, metals, currency, passThrough = [] } = base.request;
  const method = typed[keyOf(TAX_METHOD)] ?? policy.tax.method;
  const share = (path: readonly string[], value: number) =>
    typed[keyOf(path)] ?? shownIn({ locale, currency }, path.at(-1)!, value);
  const added = namesTyped(typed, 'passThrough').filter((name) => !passThrough.some(({ id }) => id === name));
  const operations = namesTyped(typed, 'labour').filter((name) => !labour.some(({ operation }) => operation === name));
  const set = (path: readonly string[]) => (text: string) => change(type(typed, path, text));
  return (
    <section class="card" aria-labelledby="levers">
      <h2 id="levers">{say('price.change')}</h2>
      <p class="soft">{say('price.changeLead')}</p>
      <div class="columns levers">
        {([MARGIN, MARKUP] as const).map((path) => (
          <Field
            key={path[2]}
            label={say(path === MARGIN ? 'price.margin' : 'price.markup')}
            hint={say(path === MARGIN ? 'price.marginHint' : 'price.markupHint')}
            value={share(path, path === MARGIN ? profit.ofMaking.marginFraction : profit.ofMaking.markupFraction)}
            onValue={set(path)}
            inputMode="decimal"
            error={props.error}
            pointer={`/overrides/${path.join('/')}`}
          />
        ))}
        <Lever {...props} path={['policy', 'discountFraction']} label={say('price.discount')} />
        <Lever {...props} path={['policy', 'depositFraction']} label={say('price.deposit')} />
        <Lever {...props} path={['policy', 'contingencyFraction']} label={say('price.contingency')} />
        <Lever {...props} path={['policy', 'tax', 'rateFraction']} label={say('price.taxRate')} />
        <Select
          label={say('price.taxMethod')}
          value={method}
          onValue={(text) => set(TAX_METHOD)(text === policy.tax.method ? '' : text)}
          choices={METHODS.map((one) => ({ value: one, label: say(`price.taxMethod.${one}`) }))}
        />
        {method === 'gross_rounded_up' && (
          <Lever
            {...props}
            path={['policy', 'tax', 'roundUpToMinor']}
            label={say('price.roundUpTo', { currency })}
            note={say('price.roundUpHint')}
          />
        )}
        <Lever {...props} path={['policy', 'finePricePerG']} label={say('price.finePrice', { currency })} />
        {metals.map(({ id, price: { per } }) => (
          <Lever
            key={id}
            {...props}
            path={['metals', id, 'price', 'amount']}
            label={say('price.metalPrice', { metal: nameOf(id), currency, per: named('per', per) })}
          />
        ))}
      </div>
      <details>
        <summary>{say('price.minutes')}</summary>
        <div class="columns levers">
          {labour.map(({ operation, factor = 1 }) => (
            <Lever
              key={operation}
              {...props}
              path={['labour', operation, 'minutes']}
              label={say('price.minutesOf', { operation: named('operation', operation) })}
              note={factor === 1 ? undefined : say('price.factor', { factor: shownIn({ locale, currency }, 'factor', factor) })}
            />
          ))}
          {operations.map((name) => (
            <Taken key={name} {...props} under={['labour', name]} path={['labour', name, 'minutes']} name={name} />
          ))}
        </div>
        <AddOperation add={(name, minutes) => change(typeAll(typed, ['labour', name], { role: 'bench', minutes }))} />
      </details>
      <details>
        <summary>{say('price.bought')}</summary>
        <div class="columns levers">
          {passThrough
            .filter(({ cost }) => cost !== undefined)
            .map(({ id }) => (
              <Lever key={id} {...props} path={['passThrough', id, 'cost']} label={say('price.costOf', { name: id, currency })} />
            ))}
          {added.map((name) => (
            <Taken key={name} {...props} under={['passThrough', name]} path={['passThrough', name, 'cost']} name={name} />
          ))}
        </div>
        <AddBought currency={currency} add={(name, given) => change(typeAll(typed, ['passThrough', name], given))} />
      </details>
    </section>
  );
}

const TAX_METHOD = ['policy', 'tax', 'method'] as const;

function typeAll(typed: Typed, under: readonly string[], given: Record<string, string>): Typed {
  return Object.entries(given).reduce((all, [name, text]) => type(all, [...under, name], text), typed);
}

function namesTyped(typed: Typed, list: string): string[] {
  const paths = Object.keys(typed).map((key) => JSON.parse(key) as string[]);
  return [...new Set(paths.filter(([first]) => first === list).map(([, name]) => name!))];
}

type LeverProps = Pick<Props, 'base' | 'typed' | 'faults' | 'error' | 'change'> & {
  path: readonly string[];
  label: string;
  note?: string | undefined;
};

/** One number: what was typed, else the one that stands; an empty field is that one again. */
function Lever({ base, typed, faults, error, change, path, label, note }: LeverProps) {
  const { say, locale, number } = useWords();
  const key = keyOf(path);
  const { currency } = base.request;
  const standing = shownIn({ locale, currency }, path.at(-1)!, valueAt(base.request, path));
  const fault = faults.get(key);
  const told =
    fault === undefined
      ? typed[key] === undefined
        ? note
        : say('price.was', { value: standing === '' ? '–' : standing })
      : fault === 'not_a_number'
        ? say('quantity.notANumber')
        : say('quantity.ambiguous', { whole: number(fault[0]), broken: String(fault[1]) });
  return (
    <Field
      label={label}
      value={typed[key] ?? standing}
      onValue={(text) => change(type(typed, path, text === standing ? '' : text))}
      inputMode="decimal"
      hint={told}
      error={error}
      pointer={`/overrides/${path.join('/')}`}
    />
  );
}

/** Something that was added here, and can be taken out again. */
function Taken({ name, under, ...lever }: Omit<LeverProps, 'label'> & { name: string; under: readonly string[] }) {
  const { say } = useWords();
  return (
    <div class="row">
      <Lever {...lever} label={name} />
      <Button
        kind="quiet"
        aria-label={say('price.takeOutNamed', { name })}
        onClick={() => lever.change(untype(lever.typed, under))}
      >
        {say('price.takeOut')}
      </Button>
    </div>
  );
}

function AddOperation({ add }: { add: (name: string, minutes: string) => void }) {
  const { say } = useWords();
  const [name, setName] = useState('');
  const [minutes, setMinutes] = useState('');
  return (
    <div class="row">
      <Field label={say('price.otherWork')} value={name} onValue={setName} maxLength={120} />
      <Field label={say('price.minutesWord')} value={minutes} onValue={setMinutes} inputMode="decimal" />
      <Button
        disabled={name.trim() === '' || minutes.trim() === ''}
        onClick={() => {
          add(name.trim(), minutes);
          setName('');
          setMinutes('');
        }}
      >
        {say('price.addWork')}
      </Button>
    </div>
  );
}

const BOUGHT = ['stone', 'finding', 'hallmark', 'other'] as const;

function AddBought({ currency, add }: { currency: string; add: (name: string, given: Record<string, string>) => void }) {
  const { say } = useWords();
  const empty = { name: '', kind: 'stone', cost: '', handlingFraction: '25' };
  const [bought, setBought] = useState(empty);
  const set = (part: Partial<typeof empty>) => setBought({ ...bought, ...part });
  const { name, ...given } = bought;
  return (
    <div class="row">
      <Field label={say('price.boughtWhat')} value={name} onValue={(text) => set({ name: text })} maxLength={60} />
      <Select
        label={say('price.boughtKind')}
        value={bought.kind}
        onValue={(kind) => set({ kind })}
        choices={BOUGHT.map((one) => ({ value: one, label: say(`price.bought.${one}`) }))}
      />
      <Field
        label={say('price.boughtCost', { currency })}
        value={bought.cost}
        onValue={(cost) => set({ cost })}
        inputMode="decimal"
      />
      <Field
        label={say('price.handling')}
        value={bought.handlingFraction}
        onValue={(handlingFraction) => set({ handlingFraction })}
        inputMode="decimal"
      />
      <Button
        disabled={name.trim() === '' || bought.cost.trim() === ''}
        onClick={() => {
          add(name.trim(), given);
          setBought(empty);
        }}
      >
        {say('price.addBought')}
      </Button>
    </div>
  );
}

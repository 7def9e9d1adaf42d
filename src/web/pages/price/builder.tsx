import { useMemo } from 'preact/hooks';
import { useLoaded } from '../../api/use-loaded.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { baseOf, loadBase, unmoved, whatIf, type Base, type Commission, type Quote, type Version } from './base-price.ts';
import { InsidePage } from './inside-page.tsx';
import { Keep } from './keep.tsx';
import { Levers } from './levers.tsx';
import { OutsidePage } from './outside-page.tsx';
import { read, valueAt, type Typed } from './typed-changes.ts';
import { WhatMoved } from './what-moved.tsx';

interface Props {
  commission: Commission;
  quotes: readonly Quote[];
  /** The version that changes begin from; empty for the book. */
  chosen: string;
  choose: (id: string) => void;
  kept: (id: string) => void;
}

/** The owner's price: begin from the book or a version, change a number, see what moves, and keep it or not. */
export function Builder({ commission, quotes, chosen, choose, kept }: Props) {
  const { say, named } = useWords();
  // A sketch that was changed is another thing to begin from.
  const seen = quotes.find(({ id }) => id === chosen)?.version;
  const base = useLoaded((signal) => loadBase(commission.id, chosen, signal), [commission.id, chosen, seen]);
  const isOf = (base.value?.version?.id ?? '') === chosen;
  // What was kept is begun from at once, so that nothing typed from now on is laid aside with the version before it.
  const keptNow = (version: Version) => {
    base.put(baseOf(version));
    kept(version.id);
  };
  return (
    <>
      <Select
        label={say('price.from')}
        value={chosen}
        onValue={choose}
        choices={[
          { value: '', label: say('price.book') },
          ...quotes.map(({ id, number, state }) => ({
            value: id,
            label: say('commission.quoteLine', { number, state: named('quote.state', state) }),
          })),
        ]}
      />
      {base.error && <NotYet commission={commission} />}
      {isOf || base.error ? (
        <Waiting of={base}>
          {(loaded) => isOf && <Changing key={chosen} commission={commission} base={loaded} kept={keptNow} />}
        </Waiting>
      ) : (
        <p class="soft" role="status">
          {say('shell.loading')}
        </p>
      )}
    </>
  );
}

/** Where the designs, plans and prices are made that a price needs. */
function NotYet({ commission: { pieces } }: { commission: Commission }) {
  const { say } = useWords();
  return (
    <section class="card">
      <p>{say('price.needs')}</p>
      <ul>
        {pieces.map(({ id, number }) => (
          <li key={id}>
            <a href={`/pieces/${id}/design`}>{`${say('commission.design')} ${number}`}</a>
            {', '}
            <a href={`/pieces/${id}/plan`}>{`${say('commission.heats')} ${number}`}</a>
          </li>
        ))}
        <li>
          <a href="/studio">{say('price.toStudio')}</a>
        </li>
      </ul>
    </section>
  );
}

const NOTHING: Typed = {};

function Changing({ commission, base, kept }: { commission: Commission; base: Base; kept: (version: Version) => void }) {
  const { say, tell, money } = useWords();
  const { version, answer: before, request } = base;
  const draft = useDraft<Typed>(`price:${commission.id}:${version ? `${version.id}:${version.version}` : 'book'}`, NOTHING);
  const { overrides, faults } = useMemo(() => read(draft.draft, request.currency), [draft.draft, request.currency]);
  const changes = JSON.stringify(overrides);
  const priced = useLoaded((signal) => whatIf(commission.id, base, overrides, signal), [base, changes]);
  const now = priced.value ?? unmoved(base);
  const { currency } = now.answer;
  const differenceMinor = now.answer.totals.grossMinor - before.totals.grossMinor;
  const rate = valueAt(overrides, ['policy', 'tax', 'rateFraction']) ?? request.policy.tax.rateFraction;
  return (
    <>
      <div class="price-now" role="status">
        <span>{say('price.gross')}</span>
        <strong class="figure">{money(now.answer.totals.grossMinor, currency)}</strong>
        {differenceMinor !== 0 && (
          <span class="figure">
            {say('price.movedBy', {
              before: money(before.totals.grossMinor, currency),
              by: `${differenceMinor > 0 ? '+' : ''}${money(differenceMinor, currency)}`,
            })}
          </span>
        )}
      </div>
      <ProblemNotice error={priced.error} />
      {now.asks.length > 0 && (
        <div class="notice notice-caution">
          <p>{say('price.asks')}</p>
          <ul>
            {now.asks.map((one) => (
              <li key={one}>{tell(one)}</li>
            ))}
          </ul>
        </div>
      )}
      <Levers base={base} profit={now.profit} typed={draft.draft} faults={faults} error={priced.error} change={draft.change} />
      {draft.isChanged && (
        <p class="row">
          <span class="soft">{say('shell.draftKept')}</span>
          <Button kind="quiet" onClick={draft.drop}>
            {say('shell.draftDrop')}
          </Button>
        </p>
      )}
      <WhatMoved differences={now.differences} currency={currency} />
      <Keep
        commission={commission}
        base={base}
        overrides={overrides}
        blocked={faults.size > 0}
        kept={(version) => {
          draft.drop();
          kept(version);
        }}
      />
      <div class="price-sides">
        <InsidePage base={base} now={now} />
        <OutsidePage
          commission={commission}
          answer={now.answer}
          taxRateFraction={Number(rate)}
          pieces={Math.max(1, ...request.labour.map(({ run }) => run?.pieces ?? 1))}
          validUntil={version?.validUntil}
          version={version}
        />
      </div>
    </>
  );
}

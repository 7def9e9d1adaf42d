import { useState } from 'preact/hooks';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import { useCountSending } from './send-count.ts';
import type { Stocktake } from './drawer-replies.ts';

type Count = Stocktake['counts'][number];

interface Props {
  stocktake: Stocktake;
  show: (stocktake: Stocktake) => void;
}

/** What was counted beside what the book says; a difference over what may be has to be explained. */
export function ComparedCounts({ stocktake: { id, state, counts }, show }: Props) {
  const session = useSession();
  return (
    <section class="card">
      <ul class="plain-list">
        {counts.map((count) => (
          <li key={count.lotId} class="line">
            <Compared count={count} />
            {state === 'compared' &&
              may(session, 'bench') &&
              count.compared &&
              !count.compared.withinTolerance &&
              count.reason === null && <Explain id={id} count={count} show={show} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Compared({ count: { number, product, owner, countedG, compared, reason } }: { count: Count }) {
  const words = useWords();
  const { say, money } = words;
  const { units } = useSession();
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams, 3);
  return (
    <>
      <h2>{say('count.lotOf', { number, product })}</h2>
      {owner === 'client' && <span class="word">{say('count.clients')}</span>}
      {compared && countedG !== null && (
        <>
          <dl class="pairs">
            <Pair word={say('count.counted')} value={mass(countedG)} />
            <Pair word={say('count.inBook')} value={mass(compared.bookG)} />
            <Pair word={say('count.difference')} value={mass(compared.differenceG)} />
            <Pair word={say('count.mayBe')} value={`± ${mass(compared.toleranceG)}`} />
            {compared.value && (
              <Pair word={say('count.value')} value={money(compared.value.amountMinor, compared.value.currency)} />
            )}
          </dl>
          <p class={compared.withinTolerance ? 'soft' : 'late'}>
            {say(compared.withinTolerance ? 'count.within' : 'count.over')}
          </p>
        </>
      )}
      {reason !== null && (
        <p>
          {say('count.why')}: {reason}
        </p>
      )}
    </>
  );
}

function Pair({ word, value }: { word: string; value: string }) {
  return (
    <div>
      <dt>{word}</dt>
      <dd class="figure">{value}</dd>
    </div>
  );
}

function Explain({ id, count, show }: { id: string; count: Count; show: (stocktake: Stocktake) => void }) {
  const { say } = useWords();
  const [reason, setReason] = useState('');
  const sending = useCountSending(id, () => ({ lotId: count.lotId, tareG: 0, reason }), show);
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form onSubmit={submit}>
      <Field
        label={say('count.explain')}
        value={reason}
        onValue={setReason}
        error={sending.error}
        pointer="/counts/0/reason"
        maxLength={200}
        required
      />
      <ProblemNotice error={sending.error} sending={sending} />
      <Button type="submit" busy={sending.busy}>
        {say('count.explainIt', { number: count.number })}
      </Button>
    </form>
  );
}

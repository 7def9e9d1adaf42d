import { useState } from 'preact/hooks';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useWords } from '../../words/words.ts';
import { useCountSending } from './send-count.ts';
import type { Stocktake } from './drawer-replies.ts';

type Count = Stocktake['counts'][number];

interface Props {
  stocktake: Stocktake;
  show: (stocktake: Stocktake) => void;
}

/** Lot by lot on the scale; what the book expects is not shown. */
export function BlindCount({ stocktake, show }: Props) {
  const words = useWords();
  const { say } = words;
  const session = useSession();
  const [chosen, setChosen] = useState<string>();
  const { counts, left, id } = stocktake;
  const next =
    counts.find(({ lotId }) => lotId === chosen) ?? counts.find(({ countedG, reason }) => countedG === null && reason === null);
  const done = (after: Stocktake) => {
    setChosen(undefined);
    show(after);
  };
  return (
    <>
      <p role="status">{say('count.left', { left })}</p>
      {next && may(session, 'bench') && <CountOne key={next.lotId} id={id} lot={next} done={done} />}
      <section class="card" aria-labelledby="counts">
        <h2 id="counts">{say('count.lots')}</h2>
        <ul class="plain-list">
          {counts.map(({ lotId, number, product, owner, countedG, reason }) => (
            <li key={lotId} class="line lot-line">
              <span>{say('count.lotOf', { number, product })}</span>
              {owner === 'client' && <span class="word">{say('count.clients')}</span>}
              <span class={countedG === null && reason === null ? 'soft' : 'figure'}>
                {countedG === null ? (reason ?? say('count.waiting')) : showQuantity(words, session.units, 'mass', countedG, 3)}
              </span>
              {may(session, 'bench') && lotId !== next?.lotId && (
                <Button onClick={() => setChosen(lotId)}>{say('count.again', { number })}</Button>
              )}
            </li>
          ))}
        </ul>
        <a href={`/api/v1/documents/stocktake-sheets/${id}`} target="_blank" rel="noopener">
          {say('count.sheet')}
        </a>
      </section>
    </>
  );
}

function CountOne({ id, lot, done }: { id: string; lot: Count; done: (stocktake: Stocktake) => void }) {
  const { say } = useWords();
  const [weighedG, setWeighedG] = useState<number>();
  const [tareG, setTareG] = useState<number>();
  const [reason, setReason] = useState('');
  const sending = useCountSending(
    id,
    () => ({
      lotId: lot.lotId,
      tareG: tareG ?? 0,
      ...(weighedG !== undefined && { weighedG }),
      ...(reason.trim() !== '' && { reason: reason.trim() }),
    }),
    done,
  );
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="card" onSubmit={submit}>
      <h2>{say('count.lotOf', { number: lot.number, product: lot.product })}</h2>
      <div class="columns">
        <QuantityField
          label={say('count.weighed')}
          quantity="mass"
          value={weighedG}
          onValue={setWeighedG}
          error={sending.error}
          pointer="/counts/0/weighedG"
        />
        <QuantityField
          label={say('count.tare')}
          quantity="mass"
          value={tareG}
          onValue={setTareG}
          error={sending.error}
          pointer="/counts/0/tareG"
        />
        <Field
          label={say('count.notCounted')}
          value={reason}
          onValue={setReason}
          error={sending.error}
          pointer="/counts/0/reason"
          maxLength={200}
        />
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button type="submit" kind="main" busy={sending.busy}>
        {say('count.save')}
      </Button>
    </form>
  );
}

import { useRef } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { decimalOf, shareOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { dayIn } from './day-in.ts';

const NUMBERS = ['meltLossFraction', 'assayFraction', 'payFraction', 'finePricePerG', 'feeFixed', 'feePerG'] as const;
type Draft = Record<(typeof NUMBERS)[number] | 'settledOn', string>;

/** What the refiner wrote of a jar, as it stands on the paper. */
export function SettleJar({ id, number, done }: { id: string; number: string; done: () => void }) {
  const { say } = useWords();
  const { studio } = useSession();
  const { draft, isChanged, change, drop } = useDraft<Draft>(`settle-jar:${id}`, {
    settledOn: dayIn(studio.timeZone),
    meltLossFraction: '',
    assayFraction: '',
    payFraction: '',
    finePricePerG: '',
    feeFixed: '',
    feePerG: '',
  });
  const set = (part: Partial<Draft>) => change({ ...draft, ...part });
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    const body = {
      settledOn: draft.settledOn,
      meltLossFraction: shareOf(draft.meltLossFraction, 100) as number,
      assayFraction: shareOf(draft.assayFraction, 1000) as number,
      payFraction: shareOf(draft.payFraction, 100) as number,
      finePricePerG: decimalOf(draft.finePricePerG),
      feeFixed: decimalOf(draft.feeFixed),
      feePerG: decimalOf(draft.feePerG),
    };
    const headers = { 'idempotency-key': key.current, ...confirming };
    await bodyOf(api.POST('/api/v1/scrap-returns/{id}/settlements', { params: { path: { id } }, body, headers }));
    key.current = idempotencyKey();
    drop();
    done();
  });
  const { error } = sending;
  return (
    <details open={isChanged || undefined}>
      <summary>{say('scrap.settle', { number })}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void sending.send();
        }}
      >
        <div class="columns">
          <Field
            label={say('scrap.settledOn')}
            type="date"
            value={draft.settledOn}
            onValue={(settledOn) => set({ settledOn })}
            error={error}
            pointer="/settledOn"
            required
          />
          {NUMBERS.map((name) => (
            <Field
              key={name}
              label={say(`scrap.settle.${name}`, { currency: studio.currency })}
              value={draft[name]}
              onValue={(value) => set({ [name]: value })}
              inputMode="decimal"
              error={error}
              pointer={`/${name}`}
              required
            />
          ))}
        </div>
        <ProblemNotice error={error} sending={sending} />
        <div class="row">
          <Button type="submit" kind="main" busy={sending.busy}>
            {say('scrap.settleIt')}
          </Button>
          {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
        </div>
      </form>
    </details>
  );
}

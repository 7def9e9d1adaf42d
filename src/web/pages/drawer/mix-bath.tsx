import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { numberOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

const ACIDS = ['bisulphate', 'citric', 'sulphuric', 'other'] as const;
type Acid = (typeof ACIDS)[number];

/** A pickle that was mixed; what is not said is as the settings have it. */
export function MixBath({ done }: { done: () => void }) {
  const { say, named } = useWords();
  const [acid, setAcid] = useState<Acid | ''>('');
  const [volume, setVolume] = useState('');
  const [strength, setStrength] = useState('');
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    const volumeL = numberOf(volume);
    const strengthGPerL = numberOf(strength);
    await bodyOf(
      api.POST('/api/v1/pickle-baths', {
        body: {
          ...(acid !== '' && { acid }),
          ...(volumeL !== undefined && { volumeL }),
          ...(strengthGPerL !== undefined && { strengthGPerL }),
        },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    setVolume('');
    setStrength('');
    done();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="card" onSubmit={submit}>
      <h2>{say('bath.new')}</h2>
      <p class="soft">{say('bath.newLead')}</p>
      <div class="columns">
        <Select
          label={say('bath.acid')}
          value={acid}
          onValue={(value) => setAcid(value as Acid | '')}
          choices={[
            { value: '', label: say('bath.asSettings') },
            ...ACIDS.map((value) => ({ value, label: named('bath.acid', value) })),
          ]}
        />
        <Field
          label={say('bath.volume')}
          value={volume}
          onValue={setVolume}
          inputMode="decimal"
          error={sending.error}
          pointer="/volumeL"
        />
        <Field
          label={say('bath.strength')}
          value={strength}
          onValue={setStrength}
          inputMode="decimal"
          error={sending.error}
          pointer="/strengthGPerL"
        />
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button type="submit" kind="main" busy={sending.busy}>
        {say('bath.mix')}
      </Button>
    </form>
  );
}

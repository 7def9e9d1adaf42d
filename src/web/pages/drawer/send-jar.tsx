import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useWords } from '../../words/words.ts';
import { dayIn } from './day-in.ts';

const JARS = ['filings', 'offcuts', 'sweep', 'solder_bearing'] as const;
type JarName = (typeof JARS)[number];

/** A jar that goes to a refiner. */
export function SendJar({ done }: { done: () => void }) {
  const { say } = useWords();
  const { studio } = useSession();
  const [jar, setJar] = useState<JarName>('filings');
  const [refiner, setRefiner] = useState('');
  const [weighedG, setWeighedG] = useState<number>();
  const [sentOn, setSentOn] = useState(() => dayIn(studio.timeZone));
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    await bodyOf(
      api.POST('/api/v1/scrap-returns', {
        body: { jar, refiner, weighedG: weighedG as number, sentOn },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    setWeighedG(undefined);
    done();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <details>
      <summary>{say('scrap.sendJar')}</summary>
      <form onSubmit={submit}>
        <div class="columns">
          <Select
            label={say('scrap.jar')}
            value={jar}
            onValue={(value) => setJar(value as JarName)}
            choices={JARS.map((value) => ({ value, label: say(`scrap.jar.${value}`) }))}
          />
          <Field
            label={say('scrap.refiner')}
            value={refiner}
            onValue={setRefiner}
            error={error}
            pointer="/refiner"
            maxLength={120}
            required
          />
          <QuantityField
            label={say('scrap.weighed')}
            quantity="mass"
            value={weighedG}
            onValue={setWeighedG}
            error={error}
            pointer="/weighedG"
          />
          <Field
            label={say('scrap.sentOn')}
            type="date"
            value={sentOn}
            onValue={setSentOn}
            error={error}
            pointer="/sentOn"
            required
          />
        </div>
        <ProblemNotice error={error} sending={sending} />
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('scrap.sendIt')}
        </Button>
      </form>
    </details>
  );
}

import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Person } from './person.ts';

/** A code with which somebody chooses a PIN at a tablet; it takes the one they have away. */
export function PinCode({ person: { id, name } }: { person: Person }) {
  const { say, moment } = useWords();
  const { studio } = useSession();
  const [given, setGiven] = useState<{ code: string; expiresAt: string }>();
  const sending = useSending(async () =>
    setGiven(await bodyOf(api.POST('/api/v1/pins/{id}/codes', { params: { path: { id } } }))),
  );
  return (
    <div class="row">
      <Button busy={sending.busy} onClick={() => void sending.send()}>
        {say('people.pinCode', { name })}
      </Button>
      {given && (
        <p role="status">
          {say('people.pinCodeIs', { until: moment(given.expiresAt, studio.timeZone) })} <code class="once">{given.code}</code>
        </p>
      )}
      <ProblemNotice error={sending.error} />
    </div>
  );
}

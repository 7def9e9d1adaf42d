import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

/** "Can we make it by then?", asked of everything that is promised already. */
export function CanWe({ dueOn, minutes }: { dueOn: string; minutes: string }) {
  const { say, tell } = useWords();
  const [answer, setAnswer] = useState<string>();
  const [error, setError] = useState<Error>();
  const ask = async () => {
    try {
      setError(undefined);
      const { says } = await bodyOf(api.GET('/api/v1/due-dates', { params: { query: { dueOn, minutes: Number(minutes) } } }));
      setAnswer(says);
    } catch (thrown) {
      setError(thrown as Error);
    }
  };
  return (
    <div class="row">
      <Button disabled={dueOn === '' || !(Number(minutes) > 0)} onClick={() => void ask()}>
        {say('enquiry.canWe')}
      </Button>
      <strong role="status">{answer && tell(answer)}</strong>
      <ProblemNotice error={error} />
    </div>
  );
}

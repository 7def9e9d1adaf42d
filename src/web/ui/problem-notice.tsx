import { useState } from 'preact/hooks';
import { ApiProblem, Unreachable } from '../api/problem.ts';
import type { Sending } from '../api/use-sending.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';

/** What was refused and what to do about it; a value that is only unusual can be confirmed with a reason. */
export function ProblemNotice({ error, sending, retry }: { error: Error | undefined; sending?: Sending; retry?: () => void }) {
  const { say, tell, place } = useWords();
  if (!error) return null;
  if (error instanceof Unreachable) return <Notice text={say('shell.unreachable')} {...(retry && { retry })} />;
  if (!(error instanceof ApiProblem))
    return <Notice text={say('shell.unexpected', { detail: tell(error.message) })} {...(retry && { retry })} />;
  return (
    <div class="notice notice-problem" role="alert">
      <p>
        <strong>{tell(error.body.title)}</strong>
        {error.errors.length === 0 && error.body.detail ? `: ${tell(error.body.detail)}` : null}
      </p>
      {error.errors.length > 0 && (
        <ul>
          {error.errors.map(({ pointer, detail, perhaps }) => (
            <li key={pointer}>
              {pointer !== '' && <strong>{place(pointer)}: </strong>}
              {tell(detail)}
              {perhaps !== undefined && ` ${say('shell.perhaps', { value: JSON.stringify(perhaps) })}`}
            </li>
          ))}
        </ul>
      )}
      {error.confirmable && sending && <Confirming sending={sending} />}
      {retry && <Button onClick={retry}>{say('shell.again')}</Button>}
    </div>
  );
}

function Notice({ text, retry }: { text: string; retry?: () => void }) {
  const { say } = useWords();
  return (
    <div class="notice notice-problem" role="alert">
      <p>{text}</p>
      {retry && <Button onClick={retry}>{say('shell.again')}</Button>}
    </div>
  );
}

function Confirming({ sending }: { sending: Sending }) {
  const { say } = useWords();
  const [reason, setReason] = useState('');
  return (
    <div class="row">
      <label class="field">
        <span>
          {say('shell.confirmAsk')} {say('shell.confirmReason')}
        </span>
        <input value={reason} maxLength={200} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      <Button busy={sending.busy} disabled={reason.trim().length < 3} onClick={() => void sending.confirm(reason.trim())}>
        {say('shell.confirm')}
      </Button>
    </div>
  );
}

import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

/** Somebody who has no PIN, or forgot it, chooses one with the code that the owner gave. */
export function NewPinByCode({ done, back }: { done: () => void; back: () => void }) {
  const { say } = useWords();
  const [code, setCode] = useState('');
  const [pin, setPin] = useState('');
  const sending = useSending(async () => {
    await bodyOf(api.POST('/api/v1/shared-tablets/current/pins', { body: { code: code.trim(), pin } }));
    done();
    back();
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <Field
        label={say('tablet.code')}
        hint={say('tablet.codeHint')}
        value={code}
        onValue={setCode}
        autoComplete="off"
        autocapitalize="none"
        error={sending.error}
        pointer="/code"
        required
      />
      <Field
        label={say('mine.pinNew')}
        hint={say('mine.pinHint')}
        type="password"
        inputMode="numeric"
        autoComplete="new-password"
        value={pin}
        onValue={setPin}
        error={sending.error}
        pointer="/pin"
        required
      />
      <ProblemNotice error={sending.error} />
      <div class="row">
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('mine.pinSet')}
        </Button>
        <Button onClick={back}>{say('shell.cancel')}</Button>
      </div>
    </form>
  );
}

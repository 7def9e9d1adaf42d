import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

/** The door of a book that has an owner. */
export function SignIn({ done }: { done: () => void }) {
  const { say } = useWords();
  const [signInName, setName] = useState('');
  const [password, setPassword] = useState('');
  const sending = useSending(async () => {
    await bodyOf(api.POST('/api/v1/sessions', { body: { signInName, password } }));
    done();
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <main class="door">
      <form class="card" onSubmit={submit}>
        <h1>{say('signIn.title')}</h1>
        <Field
          label={say('signIn.name')}
          value={signInName}
          onValue={setName}
          autoComplete="username"
          autocapitalize="none"
          required
        />
        <Field
          label={say('signIn.password')}
          type="password"
          value={password}
          onValue={setPassword}
          autoComplete="current-password"
          required
        />
        <ProblemNotice error={sending.error} />
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('signIn.go')}
        </Button>
      </form>
    </main>
  );
}

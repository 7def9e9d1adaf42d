import { api, bodyOf } from '../api/client.ts';
import { useLoaded } from '../api/use-loaded.ts';
import { useSending } from '../api/use-sending.ts';
import { Button } from '../ui/button.tsx';
import { ProblemNotice } from '../ui/problem-notice.tsx';
import { useWords } from '../words/words.ts';

/** Stands on every page of a sample studio, with the way out. @param atDoor nobody is signed in */
export function SampleBanner({ atDoor }: { atDoor: boolean }) {
  const { say } = useWords();
  const leaving = useSending(async () => {
    await bodyOf(api.DELETE('/api/v1/samples/current'));
    location.assign('/');
  });
  return (
    <aside class="sample-banner" aria-label={say('sample.label')}>
      <p>
        {say('sample.banner')} {atDoor && <SignInHere />}
      </p>
      <Button busy={leaving.busy} onClick={() => void leaving.send()}>
        {say('sample.leave')}
      </Button>
      <ProblemNotice error={leaving.error} />
    </aside>
  );
}

function SignInHere() {
  const { say } = useWords();
  const { value } = useLoaded((signal) => bodyOf(api.GET('/api/v1/samples/current', { signal })), []);
  return value?.signIn ? (
    <>{say('sample.signIn', { names: value.signIn.names.join(', '), password: value.signIn.password })}</>
  ) : null;
}

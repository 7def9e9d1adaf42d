import type { ComponentChildren } from 'preact';
import type { Loaded } from '../api/use-loaded.ts';
import { useWords } from '../words/words.ts';
import { ProblemNotice } from './problem-notice.tsx';

/** Shows what was loaded; until then that it is being fetched, or why it could not be. */
export function Waiting<T>({ of, children }: { of: Loaded<T>; children: (value: T) => ComponentChildren }) {
  const { say } = useWords();
  if (of.value !== undefined)
    return (
      <>
        <ProblemNotice error={of.error} retry={of.reload} />
        {children(of.value)}
      </>
    );
  if (of.error) return <ProblemNotice error={of.error} retry={of.reload} />;
  return (
    <p class="soft" role="status">
      {say('shell.loading')}
    </p>
  );
}

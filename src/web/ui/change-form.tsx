import type { ComponentChildren } from 'preact';
import type { Sending } from '../api/use-sending.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';
import { ProblemNotice } from './problem-notice.tsx';

interface Props {
  title: string;
  children: ComponentChildren;
  sending: Sending;
  isChanged: boolean;
  drop: () => void;
}

/** A thing opened to be put right: saved as a whole, or left as it was. */
export function ChangeForm({ title, children, sending, isChanged, drop }: Props) {
  const { say } = useWords();
  return (
    <details open={isChanged || undefined}>
      <summary>{title}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void sending.send();
        }}
      >
        {children}
        <ProblemNotice error={sending.error} sending={sending} />
        <div class="row">
          <Button type="submit" kind="main" busy={sending.busy} disabled={!isChanged}>
            {say('shell.save')}
          </Button>
          {isChanged && (
            <Button
              onClick={() => {
                drop();
                sending.clear();
              }}
            >
              {say('shell.draftDrop')}
            </Button>
          )}
        </div>
      </form>
    </details>
  );
}

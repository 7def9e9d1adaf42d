import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

interface Props {
  name: string;
  createdAt: string;
  endedAt: string | null;
  end: () => Promise<unknown>;
  done: () => void;
}

/** Since when something lets in; a button that ends it, or when it was ended. */
export function EndedOr({ name, createdAt, endedAt, end, done }: Props) {
  const { say, moment } = useWords();
  const { studio } = useSession();
  const sending = useSending(async () => {
    await end();
    done();
  });
  return (
    <>
      <span class="soft">{say('keys.since', { at: moment(createdAt, studio.timeZone) })}</span>
      {endedAt === null ? (
        <Button kind="danger" busy={sending.busy} aria-label={say('keys.endOf', { name })} onClick={() => void sending.send()}>
          {say('keys.end')}
        </Button>
      ) : (
        <span class="word">{say('keys.ended', { at: moment(endedAt, studio.timeZone) })}</span>
      )}
      <ProblemNotice error={sending.error} />
    </>
  );
}

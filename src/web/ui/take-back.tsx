import { useEffect, useRef, useState } from 'preact/hooks';
import { idempotencyKey } from '../api/device.ts';
import { useSending } from '../api/use-sending.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';
import { Field } from './field.tsx';
import { ProblemNotice } from './problem-notice.tsx';

/** What the opposite of an act is sent with. */
export interface Sent {
  reason: string;
  headers: Record<string, string>;
}

/** Sends the opposite of one act under one key, so that it is taken back once. */
function useTakingBack(takeBack: (sent: Sent) => Promise<unknown>, { reason, done }: { reason: string; done: () => void }) {
  const key = useRef(idempotencyKey());
  return useSending(async (confirming) => {
    await takeBack({ reason, headers: { 'idempotency-key': key.current, ...confirming } });
    done();
  });
}

/**
 * Takes something in the book back by its opposite, with a reason that is kept beside it.
 *
 * @param name what is taken back, for those who only hear the button
 */
export function TakeBack({
  name,
  takeBack,
  done,
}: {
  name: string;
  takeBack: (sent: Sent) => Promise<unknown>;
  done: () => void;
}) {
  const { say } = useWords();
  const [isOpen, setOpen] = useState(false);
  const [reason, setReason] = useState('');
  const sending = useTakingBack(takeBack, { reason, done });
  if (!isOpen)
    return (
      <Button kind="quiet" aria-label={say('takeBack.named', { name })} onClick={() => setOpen(true)}>
        {say('takeBack.it')}
      </Button>
    );
  return (
    <form
      class="take-back"
      aria-label={say('takeBack.named', { name })}
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <Field
        label={say('takeBack.reason')}
        value={reason}
        onValue={setReason}
        error={sending.error}
        pointer="/reason"
        maxLength={200}
        required
      />
      <ProblemNotice error={sending.error} sending={sending} />
      <div class="row">
        <Button type="submit" busy={sending.busy}>
          {say('takeBack.it')}
        </Button>
        <Button kind="quiet" onClick={() => setOpen(false)}>
          {say('shell.cancel')}
        </Button>
      </div>
    </form>
  );
}

/** The last act here: what it came to, and how it is undone, where it can be. */
export interface Done {
  /** Of the act, so that a like one after it is another. */
  id: string;
  says: string;
  takeBack?: (sent: Sent) => Promise<unknown>;
}

/** Says what was just done, with one tap to take it back. */
export function JustDone({ done, after }: { done: Done | undefined; after: () => void }) {
  const told = useRef<HTMLDivElement>(null);
  const focused = useRef<string>(undefined);
  // The button that did it often goes with the act: who was on it goes on from here.
  useEffect(() => {
    if (!done || focused.current === done.id || document.activeElement !== document.body) return;
    focused.current = done.id;
    told.current?.focus({ preventScroll: true });
  });
  return (
    <div role="status" ref={told} tabIndex={-1}>
      {done && <LastAct key={done.id} done={done} after={after} />}
    </div>
  );
}

function LastAct({ done: { says, takeBack }, after }: { done: Done; after: () => void }) {
  const { say } = useWords();
  const [isBack, setBack] = useState(false);
  const sending = useTakingBack((sent) => takeBack?.(sent) ?? Promise.resolve(), {
    reason: say('takeBack.atOnce'),
    done: () => {
      setBack(true);
      after();
    },
  });
  if (isBack) return <p>{say('takeBack.done')}</p>;
  return (
    <>
      <p class="row just-done">
        <span>{says}</span>
        {takeBack && (
          <Button kind="quiet" busy={sending.busy} onClick={() => void sending.send()}>
            {say('takeBack.it')}
          </Button>
        )}
      </p>
      <ProblemNotice error={sending.error} sending={sending} />
    </>
  );
}

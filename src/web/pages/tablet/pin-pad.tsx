import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;
const LEAST = 4;
const MOST = 8;
/** Where the server does not say how long to wait. */
const USUAL_WAIT_S = 60;

interface Props {
  person: { personId: string; name: string };
  done: () => void;
  other: () => void;
}

/** Keys to be hit with a knuckle, or those of a keyboard. */
export function PinPad({ person: { personId, name }, done, other }: Props) {
  const { say } = useWords();
  const [pin, setPin] = useState('');
  const [waitUntilMs, setWait] = useState(0);
  const input = useRef<HTMLInputElement>(null);
  const leftS = useSecondsTo(waitUntilMs);
  useLayoutEffect(() => input.current?.focus(), []);
  const sending = useSending(async () => {
    try {
      await bodyOf(api.POST('/api/v1/shared-tablets/current/unlocks', { body: { personId, pin } }));
    } catch (error) {
      setPin('');
      if (error instanceof ApiProblem && error.body.status === 429)
        setWait(Date.now() + Number(error.body['retryAfterS'] ?? USUAL_WAIT_S) * 1000);
      throw error;
    }
    done();
  });
  const isWrong = sending.error instanceof ApiProblem && sending.error.slug === 'sign-in-refused';
  const mustWait = sending.error instanceof ApiProblem && sending.error.body.status === 429;
  const type = (digit: string) => {
    sending.clear();
    setPin((before) => (before + digit).slice(0, MOST));
    input.current?.focus();
  };
  const isBlocked = leftS > 0 || sending.busy;
  return (
    <form
      class="tablet-pin"
      onSubmit={(event) => {
        event.preventDefault();
        if (pin.length >= LEAST && !isBlocked) void sending.send();
      }}
    >
      <label for="pin">{say('tablet.pinOf', { name })}</label>
      <input
        id="pin"
        ref={input}
        type="password"
        // The pad is the keyboard.
        inputMode="none"
        autoComplete="off"
        maxLength={MOST}
        value={pin}
        aria-describedby="pin-says"
        onInput={(event) => setPin(event.currentTarget.value.replaceAll(/\D/g, ''))}
      />
      <p id="pin-says" role="alert" class="tablet-says">
        {mustWait && leftS > 0 ? say('tablet.wait', { seconds: leftS }) : isWrong ? say('tablet.wrong', { name }) : ''}
      </p>
      {!isWrong && !mustWait && <ProblemNotice error={sending.error} />}
      <div class="tablet-keys">
        {DIGITS.map((digit) => (
          <Button key={digit} disabled={isBlocked} onClick={() => type(digit)}>
            {digit}
          </Button>
        ))}
        <Button aria-label={say('tablet.back')} disabled={isBlocked} onClick={() => setPin((before) => before.slice(0, -1))}>
          ⌫
        </Button>
        <Button disabled={isBlocked} onClick={() => type('0')}>
          0
        </Button>
        <Button type="submit" kind="main" busy={sending.busy} disabled={pin.length < LEAST || leftS > 0}>
          {say('tablet.go')}
        </Button>
      </div>
      <Button onClick={other}>{say('tablet.other')}</Button>
    </form>
  );
}

function useSecondsTo(untilMs: number): number {
  const [now, setNow] = useState(() => Date.now());
  const isWaiting = untilMs > now;
  useEffect(() => {
    setNow(Date.now());
    if (untilMs === 0) return undefined;
    const ticking = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(ticking);
  }, [untilMs]);
  return isWaiting ? Math.ceil((untilMs - now) / 1000) : 0;
}

import { useEffect } from 'preact/hooks';
import { areTimersQuiet, stopTimer } from '../offline/timers.ts';
import { Button } from '../ui/button.tsx';
import { useTimers } from '../ui/use-timers.ts';
import { useWords } from '../words/words.ts';
import { soundOnce } from './sound.ts';

const ROUND_MS = 2000;

/** Timers that are up, over whatever page is open, also of a tablet that is locked. */
export function RingingTimers() {
  const { say } = useWords();
  const up = useTimers().filter(({ leftS }) => leftS === 0);
  const isRinging = up.length > 0;
  useEffect(() => {
    if (!isRinging) return undefined;
    const ring = () => {
      if (areTimersQuiet()) return;
      soundOnce();
      if ('vibrate' in navigator) navigator.vibrate([300, 150, 300]);
    };
    ring();
    const ringing = setInterval(ring, ROUND_MS);
    return () => {
      clearInterval(ringing);
      if ('vibrate' in navigator) navigator.vibrate(0);
    };
  }, [isRinging]);
  if (!isRinging) return null;
  return (
    <div class="ringing" role="alert">
      {up.map(({ timer: { id, name } }) => (
        <p key={id}>
          <strong>{name === '' ? say('timers.up') : say('timers.upOf', { name })}</strong>{' '}
          <Button onClick={() => stopTimer(id)}>{name === '' ? say('timers.hush') : say('timers.hushOf', { name })}</Button>
        </p>
      ))}
    </div>
  );
}

import { useState } from 'preact/hooks';
import { areTimersQuiet, setTimersQuiet, startTimer, stopTimer } from '../../offline/timers.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { useTimers } from '../../ui/use-timers.ts';
import { readNumber } from '../../units/typed-quantity.ts';
import { useWords } from '../../words/words.ts';

const USUAL_MINUTES = [1, 3, 5, 10] as const;
const MOST_MINUTES = 1440;

/** Timers for whatever takes its minutes, such as the pickle: as many as one likes, each with a name. */
export function Timers() {
  const { say, number, locale } = useWords();
  const [name, setName] = useState('');
  const [minutes, setMinutes] = useState('');
  const running = useTimers().filter(({ leftS }) => leftS > 0);
  const read = readNumber(minutes.trim());
  const isGood = typeof read === 'number' && read > 0 && read <= MOST_MINUTES;
  const start = (given: number) => {
    startTimer(name.trim(), given * 60);
    setName('');
    setMinutes('');
  };
  return (
    <details class="card" open={running.length > 0}>
      <summary>{say('timers.title')}</summary>
      <ul class="plain-list">
        {running.map(({ timer: { id, name: of, seconds }, leftS }) => (
          <li key={id} class="bench-running">
            <span class="figure">{clock(leftS)}</span>{' '}
            <span>{of === '' ? say('timers.ofMinutes', { minutes: inMinutes(seconds, locale) }) : of}</span>{' '}
            <Button onClick={() => stopTimer(id)}>
              {of === '' ? say('timers.stop', { minutes: inMinutes(seconds, locale) }) : say('timers.stopOf', { name: of })}
            </Button>
          </li>
        ))}
      </ul>
      <Field label={say('timers.name')} value={name} maxLength={40} autoComplete="off" onValue={setName} />
      <div class="bench-choices">
        {USUAL_MINUTES.map((one) => (
          <Button key={one} onClick={() => start(one)}>
            {say('timers.minutes', { minutes: one })}
          </Button>
        ))}
      </div>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (isGood) start(read);
        }}
      >
        <Field
          label={say('timers.other')}
          value={minutes}
          inputMode="decimal"
          autoComplete="off"
          {...(minutes.trim() !== '' && !isGood && { hint: say('timers.otherHint', { most: number(MOST_MINUTES) }) })}
          onValue={setMinutes}
        />
        <Button type="submit" disabled={!isGood}>
          {say('timers.start')}
        </Button>
      </form>
      <Button aria-pressed={areTimersQuiet()} onClick={() => setTimersQuiet(!areTimersQuiet())}>
        {areTimersQuiet() ? '✓ ' : ''}
        {say('timers.quiet')}
      </Button>
    </details>
  );
}

const two = (part: number) => String(part).padStart(2, '0');

/** As a clock shows it: 9:05, or 1:09:05. */
function clock(seconds: number): string {
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return hours === 0 ? `${minutes}:${two(seconds % 60)}` : `${hours}:${two(minutes)}:${two(seconds % 60)}`;
}

function inMinutes(seconds: number, locale: string): string {
  return new Intl.NumberFormat(locale, { maximumFractionDigits: 2 }).format(seconds / 60);
}

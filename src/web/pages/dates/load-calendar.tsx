import { useState } from 'preact/hooks';
import { loadColumns } from '../../../../shared/drawing/load-columns.ts';
import { Button } from '../../ui/button.tsx';
import { Picture } from '../../ui/picture.tsx';
import { useIsWide } from '../../ui/use-is-wide.ts';
import { useWords, type Words } from '../../words/words.ts';
import { dayIn, hoursOf, weeksOf, type Absence, type Day } from './load-data.ts';

const WEEKS = 4;

/** What of each coming day is taken already, week by week. */
export function LoadCalendar({ days, absences }: { days: readonly Day[]; absences: readonly Absence[] }) {
  const words = useWords();
  const { say, date } = words;
  const [all, setAll] = useState(false);
  const weeks = weeksOf(days).slice(0, all ? undefined : WEEKS);
  const shown = weeks.flatMap((week) => week.days);
  const isWide = useIsWide();
  return (
    <section class="card">
      <h2>{say('dates.calendar')}</h2>
      <Picture svg={pictureOf(shown, words, isWide ? 520 : 320)} />
      {weeks
        .filter(({ days: own }) => own.some((day) => isTold(day, absences)))
        .map(({ monday, days: own }) => (
          <section key={monday} class="load-week">
            <h3>
              {say('dates.week', { date: date(monday) })}{' '}
              <small class="soft">
                {say('dates.weekSum', {
                  taken: hoursOf(sum(own, ({ takenMinutes }) => takenMinutes)),
                  capacity: hoursOf(sum(own, ({ capacityMinutes }) => capacityMinutes)),
                })}
              </small>
            </h3>
            <ul class="plain-list">
              {own.map((day) => (
                <OneDay key={day.on} day={day} reason={reasonOf(day, absences)} />
              ))}
            </ul>
          </section>
        ))}
      {!all && <Button onClick={() => setAll(true)}>{say('dates.moreWeeks')}</Button>}
    </section>
  );
}

function OneDay({ day: { on, capacityMinutes, takenMinutes, jobs }, reason }: { day: Day; reason: string | undefined }) {
  const { say, locale } = useWords();
  // Days on which the studio is never open say nothing.
  if (capacityMinutes === 0 && reason === undefined) return null;
  const name = dayIn(locale, on);
  return (
    <li class="load-day" data-day={on}>
      <span>{name}</span>
      {capacityMinutes === 0 ? (
        <span>{say('dates.dayAway', { reason: reason ?? '' })}</span>
      ) : (
        <>
          <meter min={0} max={capacityMinutes} value={takenMinutes} aria-label={name} />
          <span class="figure">
            {say('dates.dayLine', { taken: hoursOf(takenMinutes), capacity: hoursOf(capacityMinutes) })}
            {takenMinutes >= capacityMinutes && <strong> {say('dates.dayFull')}</strong>}
            {reason !== undefined && <em class="soft"> {reason}</em>}
          </span>
        </>
      )}
      {jobs.length > 0 && (
        <span class="load-jobs">
          {jobs.map(({ commissionId, number }) => (
            <a key={commissionId} href={`/commissions/${commissionId}`}>
              {number}
            </a>
          ))}
        </span>
      )}
    </li>
  );
}

function pictureOf(days: readonly Day[], { say, locale, number }: Words, width: number): string {
  const short = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: 'UTC' });
  const each = width < 400 && days.length > 35 ? 14 : 7;
  return loadColumns({
    days: days.map((day, index) => ({ ...day, name: index % each === 0 ? short.format(new Date(day.on)) : null })),
    kinds: [say('dates.taken'), say('dates.capacity')],
    figure: (minutes) => `${number(minutes / 60, Number.isInteger(minutes / 60) ? 0 : 1)} h`,
    words: { title: say('dates.picture'), description: say('dates.pictureOf') },
    width,
  });
}

function weekdayOf(day: string): number {
  return new Date(`${day}T00:00:00Z`).getUTCDay();
}

function isTold(day: Day, absences: readonly Absence[]): boolean {
  return day.capacityMinutes > 0 || reasonOf(day, absences) !== undefined;
}

/** Why anybody is away on a day. */
function reasonOf({ on }: Day, absences: readonly Absence[]): string | undefined {
  const reasons = absences
    .filter(({ firstOn, lastOn, weekly }) => firstOn <= on && on <= lastOn && (!weekly || weekdayOf(firstOn) === weekdayOf(on)))
    .map(({ reason }) => reason);
  return reasons.length === 0 ? undefined : reasons.join(', ');
}

function sum(days: readonly Day[], of: (day: Day) => number): number {
  return days.reduce((total, day) => total + of(day), 0);
}

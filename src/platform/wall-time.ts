/**
 * The moment at which the wall clock of a zone shows a time of a day. In an hour that the clocks skip, that much later; in one they
 * repeat, the first.
 *
 * @param time hours and minutes, as 18:00
 */
export function momentOf(date: string, time: string, timeZone: string): Date {
  const asIfUtc = Date.parse(`${date}T${time}:00Z`);
  const before = asIfUtc - offsetMs(new Date(asIfUtc - DAY_MS), timeZone);
  const after = asIfUtc - offsetMs(new Date(asIfUtc + DAY_MS), timeZone);
  // The earlier of the two that shows that time; where none does, the clocks skip it.
  const shown = [Math.min(before, after), Math.max(before, after)].find(
    (at) => at + offsetMs(new Date(at), timeZone) === asIfUtc,
  );
  return new Date(shown ?? before);
}

/** Where a day of a zone begins. */
export function startOfDay(date: string, timeZone: string): Date {
  return momentOf(date, '00:00', timeZone);
}

const DAY_MS = 86_400_000;

/** How far the wall clock of a zone is ahead of UTC at a moment. */
function offsetMs(at: Date, timeZone: string): number {
  const parts = formatOf(timeZone).formatToParts(at);
  const part = (type: string) => Number(parts.find((one) => one.type === type)!.value);
  const wall = Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'), part('second'));
  return wall - Math.floor(at.getTime() / 1000) * 1000;
}

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known) return known;
  const format = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
  });
  formats.set(timeZone, format);
  return format;
}

// To make one takes much longer than to use it.
const formats = new Map<string, Intl.DateTimeFormat>();

import { z } from 'zod';

/** A moment in UTC as it is kept, however short it was written: to the millisecond, so that text compares as time does. */
export const Moment = z.iso.datetime().overwrite(toTheMillisecond);

function toTheMillisecond(moment: string): string {
  const at = Date.parse(moment);
  // What is no moment is refused beside this.
  return Number.isNaN(at) ? moment : new Date(at).toISOString();
}

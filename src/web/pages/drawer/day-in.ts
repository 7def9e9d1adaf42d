/** The day it is now, ISO 8601, on the clock of a place. */
export function dayIn(timeZone: string): string {
  const parts = new Intl.DateTimeFormat('en', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).formatToParts();
  const part = (type: string) => parts.find((one) => one.type === type)!.value;
  return `${part('year')}-${part('month')}-${part('day')}`;
}

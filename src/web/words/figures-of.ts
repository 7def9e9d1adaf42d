/** A text with its decimals, dates and moments (ISO 8601) as the reader writes them; moments by the clock of this device. */
export function figuresOf(text: string, locale: string): string {
  return text
    .replaceAll(/(?<![\w.-])\d{4}-\d\d-\d\dT[\d:.]+Z(?!\w)/g, (moment) => momentOf(moment, locale))
    .replaceAll(/(?<![\w.-])\d{4}-\d\d-\d\d(?![\w-])/g, (date) => dateOf(date, locale))
    .replaceAll(/(?<![\w.,]|\w-)(\d+)\.(\d+)(?![\w.]*\d|\w)/g, (_, ones: string, rest: string) => ones + signOf(locale) + rest);
}

function dateOf(date: string, locale: string): string {
  const at = Date.parse(date);
  return Number.isNaN(at) ? date : new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone: 'UTC' }).format(at);
}

function momentOf(moment: string, locale: string): string {
  const at = Date.parse(moment);
  return Number.isNaN(at) ? moment : new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short' }).format(at);
}

function signOf(locale: string): string {
  return new Intl.NumberFormat(locale).formatToParts(0.5).find(({ type }) => type === 'decimal')!.value;
}

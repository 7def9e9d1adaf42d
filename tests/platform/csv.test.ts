import { expect, test } from 'vitest';
import { csvOf } from '../../src/platform/http/csv.ts';

// RFC 4180, section 2, rules 5 to 7: quotes, commas and line breaks are enclosed, a quote is doubled.
test('csvOf() encloses what RFC 4180 says', () => {
  const rows = ['plain', 'a, b', 'say "hard"', 'two\r\nlines'];
  expect(csvOf([{ header: 'word', value: (row: string) => row }], rows)).toBe(
    'word\r\nplain\r\n"a, b"\r\n"say ""hard"""\r\n"two\r\nlines"\r\n',
  );
});

// OWASP, CSV Injection: = + - @, their full-width forms, tab and carriage return begin a formula in spreadsheets.
test('csvOf() takes the sting out of words that begin a formula, and leaves numbers', () => {
  expect(of('=1+1')).toBe("'=1+1");
  expect(of('=HYPERLINK("x","y")')).toBe('"\'=HYPERLINK(""x"",""y"")"');
  for (const sign of ['+', '-', '@', '＝', '＋', '－', '＠']) expect(of(`${sign}cmd`)).toBe(`'${sign}cmd`);
  expect(of('  =1')).toBe("'  =1");
  expect(of('\t=1')).toBe("'\t=1");
  expect(of('-0.5+A1')).toBe("'-0.5+A1");
  for (const number of [-2.5, '-12.30', 1e-7, -1e21]) expect(of(number)).toBe(String(number));
  expect(of('a ring = a band')).toBe('a ring = a band');
  expect(of(null)).toBe('');
});

function of(value: string | number | null): string | undefined {
  return csvOf([{ header: 'x', value: () => value }], [0]).split('\r\n')[1];
}

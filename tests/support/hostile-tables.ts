import fc from 'fast-check';

const CELLS = [
  '',
  '=1+1',
  "'=1",
  '1,85',
  '-1',
  '1e999',
  '9'.repeat(400),
  'NaN',
  '\u0000',
  '"',
  '\uFEFF',
  'x'.repeat(3000),
  '2031-02-30',
  'unknown',
];
const LINES = ['', ';;;;', '"', '"\n', ',', '\r', 'sep=;', '\u202E'];

/** Tables of text, from those that are taken to those that are none. */
export function aTable(sound: readonly string[]): fc.Arbitrary<string> {
  const whole = fc.constantFrom(...sound);
  const withOddCell = fc.tuple(whole, fc.nat(), fc.constantFrom(...CELLS)).map(([text, place, cell]) => {
    const cells = text.split(',');
    return cells.with(place % cells.length, cell).join(',');
  });
  const withOddLine = fc.tuple(whole, fc.nat(), fc.constantFrom(...LINES)).map(([text, place, line]) => {
    const lines = text.split('\n');
    return lines.toSpliced(place % (lines.length + 1), 0, line).join('\n');
  });
  return fc.oneof(
    { weight: 3, arbitrary: whole },
    { weight: 4, arbitrary: withOddCell },
    { weight: 2, arbitrary: withOddLine },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
  );
}

import fc from 'fast-check';

/** JSON that no field wants, and texts that are not quite JSON. */

/** Stand-ins for what JSON can write and JSON.stringify cannot: numbers no double holds, depths no stack holds. */
const WRITTEN: Readonly<Record<string, string>> = {
  '@too large@': '1e400',
  '@deep list@': `${'['.repeat(30_000)}${']'.repeat(30_000)}`,
  '@deep object@': `${'{"a":'.repeat(30_000)}1${'}'.repeat(30_000)}`,
};

const values: unknown[] = [
  null,
  true,
  '',
  ' ',
  'x'.repeat(100_000),
  '\u202eabc\u2066\u200b\ufeff',
  '\u0000\u0007\u001b[31m\u202e',
  '😀👩‍👩‍👧‍👦',
  '\ud800',
  '__proto__',
  'constructor',
  'toString',
  'NaN',
  '-Infinity',
  '12',
  '1,5',
  "'; DROP TABLE pieces; --",
  '1 OR 1=1',
  '=HYPERLINK("https://elsewhere.example","x")',
  '<script>alert(1)</script>',
  '{{7*7}}${7*7}%s%n',
  'a\r\nSet-Cookie: b=c',
  'Infinity',
  '0x10',
  '1e999',
  '../../etc/passwd',
  '2031-02-30',
  '0000-00-00T00:00:00Z',
  '9999-12-31T23:59:59.999Z',
  '00000000-0000-0000-0000-000000000000',
  'ffffffff-ffff-ffff-ffff-ffffffffffff',
  0,
  -0,
  -1,
  0.1,
  1e-320,
  1e308,
  -1e308,
  2 ** 31,
  2 ** 53,
  -(2 ** 63),
  ...Object.keys(WRITTEN),
  [],
  {},
  [null],
  [[[]]],
  Array.from({ length: 1000 }, () => 0),
  Array.from({ length: 10_000 }, () => 0),
  Array.from({ length: 10_001 }, () => 'x'),
  Array.from({ length: 300 }, () => ({ id: 'x' })),
  { toString: 1, valueOf: null, hasOwnProperty: [], length: -1 },
];

const aHostileValue = fc.constantFrom(...values);

const names = [
  'extra',
  '__defineGetter__',
  'toString',
  'valueOf',
  'hasOwnProperty',
  '',
  'id',
  'version',
  'state',
  'a/b~c',
  'x'.repeat(50_000),
  '\u0000',
  '😀',
];

interface Mutation {
  at: number;
  how: string;
  value: unknown;
  name: string;
  factor: number;
}

const aMutation: fc.Arbitrary<Mutation> = fc.record({
  at: fc.nat(),
  how: fc.constantFrom('scale', 'scale', 'replace', 'replace', 'remove', 'add', 'repeat', 'rename'),
  value: aHostileValue,
  name: fc.constantFrom(...names),
  factor: fc.constantFrom(0, -1, 0.01, 0.1, 0.5, 1.5, 2, 10, 100, 1e6),
});

type Holder = Record<string, unknown> | unknown[];

/** Every place in a value, as who holds it and under which name. */
function places(value: unknown, found: [Holder, string][] = []): [Holder, string][] {
  if (typeof value !== 'object' || value === null) return found;
  for (const [name, inner] of Object.entries(value)) {
    found.push([value as Holder, name]);
    places(inner, found);
  }
  return found;
}

function isNumber(holder: Holder, key: string): boolean {
  return typeof (holder as Record<string, unknown>)[key] === 'number';
}

function mutated(value: unknown, mutations: readonly Mutation[]): unknown {
  const root: Record<string, unknown> = { body: structuredClone(value) };
  for (const { at, how, value: hostile, name, factor } of mutations) {
    const all = how === 'scale' ? places(root).filter(([holder, key]) => isNumber(holder, key)) : places(root);
    if (all.length === 0) continue;
    const [holder, key] = all[at % all.length]!;
    const record = holder as Record<string, unknown>;
    const inner = record[key];
    if (how === 'scale') record[key] = (inner as number) * factor;
    else if (how === 'remove' && Array.isArray(holder)) holder.splice(Number(key), 1);
    else if (how === 'remove' && holder !== root) delete record[key];
    else if (how === 'repeat' && Array.isArray(inner)) record[key] = [...inner, ...inner, ...inner];
    else if (how === 'add' && typeof inner === 'object' && inner !== null) (inner as Record<string, unknown>)[name] = hostile;
    else if (how === 'rename' && holder !== root && !Array.isArray(holder)) {
      delete record[key];
      record[name] = inner;
    } else record[key] = hostile;
    // A body that went deep is not walked again.
    if (typeof hostile === 'object') break;
  }
  return root['body'];
}

const hostileTexts = [
  '',
  ' ',
  '{',
  '{"a":1',
  'nul',
  '\ufeff{}',
  '{}{}',
  '[1,]',
  '{"a":1,"a":2}',
  '{"__proto__":{"roles":["owner"]}}',
  '{"constructor":{"prototype":{"roles":["owner"]}}}',
  '1e999',
  '"\ud800"',
  '['.repeat(20_000),
  '<a/>',
  'a=1',
];

/** The text of a body: as the schema has it, changed here and there, or no JSON at all. */
export function aBodyText(sound: fc.Arbitrary<unknown>): fc.Arbitrary<string> {
  const changed = fc
    .tuple(sound, fc.array(aMutation, { minLength: 1, maxLength: 3 }))
    .map(([value, mutations]) => mutated(value, mutations));
  return fc.oneof(
    { weight: 8, arbitrary: sound.map(toText) },
    { weight: 10, arbitrary: changed.map(toText) },
    { weight: 1, arbitrary: fc.constantFrom(...hostileTexts) },
    { weight: 1, arbitrary: aHostileValue.map(toText) },
  );
}

function toText(value: unknown): string {
  return (JSON.stringify(value) ?? 'null').replaceAll(/"(@[a-z ]+@)"(?!:)/g, (text, name: string) => WRITTEN[name] ?? text);
}

/** Parts of a path where an id should be. */
export const aWrongId = fc.oneof(
  fc.uuid({ version: 7 }),
  fc.constantFrom(
    'x',
    '..',
    '..%2f..%2fsettings',
    '%00',
    '%',
    '%zz',
    '%c0%af',
    'x'.repeat(101),
    'x'.repeat(4000),
    '__proto__',
    'constructor',
    '%F0%9F%94%A5',
    '00000000-0000-0000-0000-000000000000',
    "'%20OR%201=1%20--",
    '1%3B',
  ),
);

const oddTexts = [
  '',
  '0',
  '-1',
  '1e400',
  'NaN',
  'null',
  '%00',
  '%ed%a0%80',
  '%e2%80%ae',
  '..%2f..%2fetc%2fpasswd',
  '%27%20OR%201%3D1%20--',
  '%3Cscript%3E',
  '__proto__',
  'x'.repeat(6000),
];

/** What a route knows, with what it does not expect. */
export const anOddValueOf = (names: readonly string[]): fc.Arbitrary<string> =>
  fc.tuple(fc.constantFrom(...names), fc.constantFrom(...oddTexts)).map(([name, text]) => `${name}=${text}`);

/** What may follow a "?", besides what the route knows. */
export const anOddQuery = fc.constantFrom(
  'limit=1&limit=2',
  'limit=-1',
  'limit=1e2',
  'limit=0x10',
  'limit=',
  'limit[]=1',
  'limit=1e400',
  'cursor=%00',
  'cursor=%',
  'cursor=-1',
  'cursor=9223372036854775808',
  'cursor=1e300',
  '__proto__=1',
  'constructor[prototype]=1',
  'toString=1',
  'no-such=1',
  '=',
  '&&&',
  '%zz=1',
  '%',
  'name=%25%5F%5C',
  'name=%00',
  `name=${'x'.repeat(5000)}`,
  'state=asleep',
  'from=2031-05-05&from=2031-05-06',
  'from=9999-12-31&to=0001-01-01',
  'from=0000-01-01&to=9999-12-31',
  'format=xml',
  'all=maybe',
  'what=%F0%9F%94%A5',
);

const odd: Readonly<Record<string, readonly string[]>> = {
  'if-match': ['"1"', '"2"', 'W/"1"', '*', '""', '"99999999999999999999"', 'abc', '"1", "2"', '"-1"', '"1.5"', '"0x1"', ''],
  'idempotency-key': ['short', 'x'.repeat(101), '', 'ünïcödé-key', 'key with spaces', 'a-key-used-twice', '../../../etc'],
  confirm: [
    '/dueOn',
    'garbage',
    '',
    ',,,,',
    '/',
    '__proto__',
    `/${'x'.repeat(3000)}`,
    '/minutesByHand, /quantityG, /parts/0/form/lengthMm',
  ],
  'confirm-reason': ['looked again', 'x', '', 'ü'.repeat(500)],
  'device-id': ['tablet-1', '', 'x'.repeat(500)],
  'content-type': [
    'application/merge-patch+json',
    'application/json; charset=utf-16',
    'application/json;;;',
    'application/problem+json',
    'text/plain',
    'text/html',
    'application/xml',
    'multipart/form-data',
    'application/x-www-form-urlencoded',
    'json',
    ';',
    '',
  ],
  'content-encoding': ['gzip', 'identity', 'br'],
  accept: ['text/html', 'application/xml;q=0.9', '*/*', ''],
  origin: ['https://elsewhere.example', 'null', 'x'],
  'sec-fetch-site': ['cross-site', 'same-origin'],
  'x-http-method-override': ['DELETE'],
  'x-forwarded-for': ['127.0.0.1'],
  cookie: ['hearthbook_session=x', 'a', '=;=;', 'hearthbook_session=%'],
  range: ['bytes=0-1'],
  book: ['studio', 'sample', '', 'x'.repeat(300), '__proto__'],
  'last-event-id': ['0', '-1', '1e9', 'x'],
};

export const oddHeaders: fc.Arbitrary<Record<string, string>> = fc
  .array(
    fc.constantFrom(...Object.entries(odd)).chain(([name, given]) => fc.constantFrom(...given).map((value) => [name, value])),
    { maxLength: 3 },
  )
  .map((headers) => Object.fromEntries(headers) as Record<string, string>);

import { gzipSync } from 'node:zlib';
import fc from 'fast-check';

type Spoilt = (text: string, at: number) => string | Buffer;

/** Ways in which a sound text of JSON arrives as something else. */
const WAYS: readonly Spoilt[] = [
  (text, at) => text.slice(0, placeIn(text, at)),
  (text, at) => put(text, at, '\u0000'),
  (text, at) => put(text, at, '}'),
  (text) => text.replace('{', '{"id":"first","id":"second",'),
  (text) => text.replace('{', '{"__proto__":{"roles":["owner"]},'),
  (text) => text.replace(/:\s*-?\d[\d.]*/, ':NaN'),
  (text) => text.replace(/:\s*-?\d[\d.]*/, ':1e999'),
  (text) => text.replace(/:\s*-?\d[\d.]*/, ':0x1F'),
  (text) => text.replaceAll('"', "'"),
  (text) => text.replace(/\}$/, ',}'),
  (text) => `${text}${text}`,
  (text) => `/* a comment */${text}`,
  (text) => `[${text}]`,
  (text) => JSON.stringify(text),
  (text) => `\uFEFF${text}`,
  (text) => Buffer.from(text, 'utf16le'),
  (text) => Buffer.from(text, 'latin1'),
  (text) => gzipSync(text),
  (text, at) =>
    Buffer.concat([Buffer.from(text), Buffer.from([0xc3, 0x28, 0xff])].toSpliced(at % 2, 0, Buffer.from([0xed, 0xa0]))),
];

/** A text as it is, or spoilt in one way. */
export function perhapsSpoilt(text: fc.Arbitrary<string>): fc.Arbitrary<string | Buffer> {
  const spoilt = fc.tuple(text, fc.constantFrom(...WAYS), fc.nat()).map(([whole, way, at]) => way(whole, at));
  return fc.oneof({ weight: 7, arbitrary: text }, { weight: 1, arbitrary: spoilt });
}

const placeIn = (text: string, at: number): number => at % Math.max(1, text.length);

function put(text: string, at: number, what: string): string {
  const place = placeIn(text, at);
  return text.slice(0, place) + what + text.slice(place);
}

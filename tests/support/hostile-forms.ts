import fc from 'fast-check';
import type { Schema } from './api-document.ts';
import { fromSchema, type Known } from './from-schema.ts';

const BOUNDARY = 'a-boundary-of-the-tests';

export const FORM_TYPE = `multipart/form-data; boundary=${BOUNDARY}`;

interface Field {
  name: string;
  /** A file where it is bytes. */
  value: string | Buffer;
}

/**
 * Forms of a schema, from sound to absurd: fields left out, sent twice, with values that mean nothing, files cut off, and forms that
 * break off in the middle.
 *
 * @param files sound ones
 */
export function aForm(schema: Schema, known: Known, files: readonly Buffer[]): fc.Arbitrary<Buffer> {
  const fields = Object.entries(schema.properties ?? {}).map(([name, member]) => {
    const some = member.format === 'binary' ? aFile(files) : fromSchema(member, known, name).map(String);
    return [name, fc.oneof({ weight: 9, arbitrary: some }, { weight: 1, arbitrary: fc.string({ unit: 'binary' }) })] as const;
  });
  const sound = fc
    .record(Object.fromEntries(fields), { requiredKeys: schema.required ?? [] })
    .map((values) => Object.entries(values).map(([name, value]): Field => ({ name, value })));
  const more: fc.Arbitrary<Field> = fc.record({
    name: fc.constantFrom(
      ...fields.map(([name]) => name),
      '__proto__',
      'toString',
      '',
      'extra',
      'x'.repeat(200),
      '"; filename="a',
    ),
    value: fc.oneof(fc.string({ maxLength: 5000 }), aFile(files)),
  });
  // What is needed alone, each as it should be, with the piece it is of where it is of one.
  const needed = Object.fromEntries(
    ['pieceId', ...(schema.required ?? [])].flatMap((name) => {
      const member = schema.properties?.[name];
      if (!member) return [];
      return [
        [name, member.format === 'binary' ? fc.constantFrom(...files) : fromSchema(member, known, name).map(String)] as const,
      ];
    }),
  );
  const plain = fc.record(needed).map((values) => Object.entries(values).map(([name, value]): Field => ({ name, value })));
  return fc
    .record({
      fields: fc.oneof(sound, plain),
      more: fc.array(more, { maxLength: 2 }),
      odd: fc.nat({ max: 4 }),
      cut: fc.nat({ max: 40 }),
    })
    .map(({ fields: given, more: added, odd, cut }) => {
      const whole = written(odd === 0 ? [...given, ...added] : given);
      return cut === 0 ? whole.subarray(0, Math.floor(whole.length / 2)) : whole;
    });
}

function aFile(files: readonly Buffer[]): fc.Arbitrary<Buffer> {
  const sound = fc.constantFrom(...files);
  return fc.oneof(
    { weight: 4, arbitrary: sound },
    {
      weight: 1,
      arbitrary: fc.tuple(sound, fc.double({ min: 0, max: 1, noNaN: true })).map(([file, share]) => cutOff(file, share)),
    },
    { weight: 1, arbitrary: fc.tuple(sound, fc.nat(), fc.nat({ max: 255 })).map(([file, at, byte]) => changed(file, at, byte)) },
    { weight: 1, arbitrary: fc.uint8Array({ maxLength: 20_000 }).map((bytes) => Buffer.from(bytes)) },
  );
}

function cutOff(file: Buffer, share: number): Buffer {
  return file.subarray(0, Math.floor(file.length * share));
}

/** One byte of its first ones is another. */
function changed(file: Buffer, at: number, byte: number): Buffer {
  const other = Buffer.from(file);
  other[at % 600] = byte;
  return other;
}

function written(fields: readonly Field[]): Buffer {
  const parts = fields.flatMap(({ name, value }) => {
    const file = typeof value === 'string' ? '' : '; filename="bench.jpg"\r\ncontent-type: image/jpeg';
    return [`--${BOUNDARY}\r\ncontent-disposition: form-data; name="${name}"${file}\r\n\r\n`, value, '\r\n'];
  });
  return Buffer.concat([...parts, `--${BOUNDARY}--\r\n`].map((part) => (typeof part === 'string' ? Buffer.from(part) : part)));
}

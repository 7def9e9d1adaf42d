import sharp, { type Sharp } from 'sharp';
import type { Response, Test } from 'supertest';
import type { Person } from './start-app.ts';

/** Noise over a dark left half and a light right one, so that it is as large as a photo and one sees which way up it stands. */
export function aPicture({ widthPx = 640, heightPx = 360 }: { widthPx?: number; heightPx?: number } = {}): Sharp {
  const pixels = Buffer.alloc(widthPx * heightPx * 3);
  let seed = 7;
  for (let at = 0; at < pixels.length; at++) {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    const isLeft = Math.floor(at / 3) % widthPx < widthPx / 2;
    pixels[at] = (isLeft ? 20 : 170) + ((seed >> 16) % 60);
  }
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } });
}

/** As a telephone makes it: lying on its side, with where, when and by which device it was taken. */
export function aPhoneJpeg(): Promise<Buffer> {
  return aPicture()
    .withMetadata({ orientation: 6 })
    .withExif({
      IFD0: { Make: 'Quillwharf', Model: 'Telephone', Artist: 'Basalt', Orientation: '6' },
      IFD2: { DateTimeOriginal: '2031:05:04 09:15:00', UserComment: 'at home' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '53/1 32/1 4610/100',
        GPSLongitudeRef: 'E',
        GPSLongitude: '9/1 59/1 1200/100',
      },
    })
    .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"/></x:xmpmeta>')
    .jpeg({ quality: 95 })
    .toBuffer();
}

/** Sends a form with a file; small files are meant as they are. */
export function sendPhoto(
  person: Person,
  file: Buffer,
  fields: Record<string, string>,
  { key, name = 'bench.jpg', type = 'image/jpeg' }: { key?: string; name?: string; type?: string } = {},
): Test {
  const test = person.post('/photos').set({ confirm: '/file', 'confirm-reason': 'a small picture' });
  if (key !== undefined) test.set('idempotency-key', key);
  for (const [field, value] of Object.entries({ showsPerson: 'false', ...fields })) test.field(field, value);
  return test.attach('file', file, { filename: name, contentType: type });
}

/** The picture behind a photo, as bytes. */
export async function fileOf(person: Person, id: string, size = 'full'): Promise<Buffer> {
  const answer = await person.get(`/photos/${id}/file?size=${size}`).buffer(true).parse(binary).expect(200);
  return answer.body as Buffer;
}

function binary(answer: Response, done: (error: Error | null, body: Buffer) => void): void {
  const chunks: Buffer[] = [];
  answer.on('data', (chunk: Buffer) => chunks.push(chunk));
  answer.on('end', () => done(null, Buffer.concat(chunks)));
}

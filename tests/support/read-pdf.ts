import { extractText, getMeta } from 'unpdf';
import type { Person } from './start-app.ts';

export interface ReadPdf {
  bytes: Buffer;
  /** All that is written in it, page after page, with single spaces. */
  text: string;
  info: Record<string, unknown>;
}

export async function readPdf(bytes: Buffer): Promise<ReadPdf> {
  const { text } = await extractText(new Uint8Array(bytes), { mergePages: true });
  const { info } = await getMeta(new Uint8Array(bytes));
  return { bytes, text: text.replaceAll(/\s+/g, ' '), info };
}

/** The bytes that a path answers, whatever they are. */
export async function getBytes(person: Person, path: string): Promise<Buffer> {
  const { body } = await person
    .get(path)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .expect(200);
  return body as Buffer;
}

export async function getPdf(person: Person, path: string): Promise<ReadPdf> {
  return readPdf(await getBytes(person, `${path}?format=pdf`));
}

/** What a page says, without its markup. */
export function wordsOf(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ');
}

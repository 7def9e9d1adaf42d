import type { Readable } from 'node:stream';
import { createInterface } from 'node:readline';
import { buffer } from 'node:stream/consumers';
import { open, type Entry, type ZipFile } from 'yauzl';

/** A zip that is read here and there, without unpacking it. */
export interface ReadZip {
  bytes: (path: string) => Promise<Buffer>;
  lines: (path: string) => AsyncIterable<string>;
  close: () => void;
}

/** @throws if the file is no zip, or its directory is damaged */
export async function readZip(file: string): Promise<ReadZip> {
  const { zip, entries } = await new Promise<{ zip: ZipFile; entries: ReadonlyMap<string, Entry> }>((resolve, reject) => {
    open(file, { lazyEntries: true, autoClose: false }, (error, opened) => {
      if (error) return reject(error);
      const found = new Map<string, Entry>();
      opened.on('entry', (entry: Entry) => {
        found.set(entry.fileName, entry);
        opened.readEntry();
      });
      opened.once('end', () => resolve({ zip: opened, entries: found }));
      opened.once('error', reject);
      opened.readEntry();
    });
  });
  const stream = (path: string) =>
    new Promise<Readable>((resolve, reject) => {
      const entry = entries.get(path);
      if (!entry) return reject(new Error(`${path} is missing in it`));
      zip.openReadStream(entry, (error, read) => (error ? reject(error) : resolve(read)));
    });
  return {
    bytes: async (path) => buffer(await stream(path)),
    async *lines(path) {
      yield* createInterface({ input: await stream(path), crlfDelay: Infinity });
    },
    close: () => zip.close(),
  };
}

import { createHash } from 'node:crypto';
import sharp, { type ResizeOptions } from 'sharp';

/** A picture as it is kept: a JPEG that stands upright, with nothing in it but what can be seen. */
export interface CleanPicture {
  full: Buffer;
  thumbnail: Buffer;
  widthPx: number;
  heightPx: number;
  /** Of the full one. */
  sha256: string;
}

/** Why a file is not taken, in a sentence. */
export class PictureRefused extends Error {}

const MOST_FULL_PX = 2560;
const MOST_THUMBNAIL_PX = 400;
/** Past the sensors of cameras; a small file that says it holds more is meant to exhaust the machine. */
const MOST_PIXELS = 120_000_000;
const MOST_SECONDS = 20;

// Whatever the library can read besides, it is never to look at: its readers of vectors, documents and raw files are large.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({ operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'] });
sharp.cache(false);
sharp.concurrency(1);

let last: Promise<unknown> = Promise.resolve();

/**
 * As cleanPicture(), one picture after the other: the largest that is read takes some hundred megabytes while it is.
 *
 * @throws {PictureRefused}
 */
export function cleanInTurn(bytes: Buffer): Promise<CleanPicture> {
  const turn = last.then(() => cleanPicture(bytes));
  last = turn.catch(() => undefined);
  return turn;
}

/**
 * Reads a picture in full and writes it anew: upright as the camera meant it, in sRGB, at most 2560 pixels a side, without
 * place, time, device, preview or anything else that came with it.
 *
 * @throws {PictureRefused} for what is no JPEG, PNG or WebP picture, is cut off or damaged, or holds more pixels than any camera makes
 */
async function cleanPicture(bytes: Buffer): Promise<CleanPicture> {
  const kind = kindOf(bytes);
  if (kind === undefined) throw new PictureRefused(whatElse(bytes));
  const read = () =>
    sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error', animated: false }).timeout({ seconds: MOST_SECONDS });
  try {
    const { width, height } = await read().metadata();
    if (width * height > MOST_PIXELS)
      throw new PictureRefused(
        `The picture says it is ${width} × ${height} pixels; at most ${MOST_PIXELS / 1e6} million are read.`,
      );
    const { data: full, info } = await read()
      .autoOrient()
      .resize(fitting(MOST_FULL_PX))
      .flatten({ background: '#fff' })
      .toColourspace('srgb')
      .jpeg({ quality: 85 })
      .toBuffer({ resolveWithObject: true });
    const thumbnail = await sharp(full).resize(fitting(MOST_THUMBNAIL_PX)).jpeg({ quality: 75 }).toBuffer();
    return {
      full,
      thumbnail,
      widthPx: info.width,
      heightPx: info.height,
      sha256: createHash('sha256').update(full).digest('hex'),
    };
  } catch (error) {
    if (error instanceof PictureRefused) throw error;
    const { message } = error as Error;
    if (/pixel limit/i.test(message))
      throw new PictureRefused(`The picture holds more than ${MOST_PIXELS / 1e6} million pixels.`);
    throw new PictureRefused(`The file begins like a ${kind} picture but cannot be read to its end: it is cut off or damaged.`);
  }
}

function fitting(most: number): ResizeOptions {
  return { width: most, height: most, fit: 'inside', withoutEnlargement: true };
}

/** By the first bytes; a name and a media type are only what somebody says. */
function kindOf(bytes: Buffer): 'JPEG' | 'PNG' | 'WebP' | undefined {
  if (bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'JPEG';
  if (bytes.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return 'PNG';
  if (bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP') return 'WebP';
  return undefined;
}

function whatElse(bytes: Buffer): string {
  if (bytes.toString('latin1', 4, 8) === 'ftyp')
    return 'This is a HEIF (HEIC, AVIF) picture. Send a JPEG, PNG or WebP: cameras can be set to save JPEG.';
  return /<svg[\s>]/i.test(bytes.toString('latin1', 0, 1000))
    ? 'This is an SVG drawing. Send a JPEG, PNG or WebP.'
    : 'This file is not a picture. Send a JPEG, PNG or WebP.';
}

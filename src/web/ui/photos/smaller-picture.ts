/** What the book keeps is no larger than this on its longer side. */
const MOST_PX = 2560;
const LARGE_BYTES = 3_000_000;

/** A large picture made no larger than the book keeps it, so that it goes out sooner; as it is where the browser cannot. */
export async function smallerPicture(file: Blob): Promise<Blob> {
  if (file.size <= LARGE_BYTES) return file;
  try {
    const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const scale = Math.min(1, MOST_PX / Math.max(picture.width, picture.height));
    const canvas = new OffscreenCanvas(Math.round(picture.width * scale), Math.round(picture.height * scale));
    canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    return await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
  } catch {
    // The server says what is wrong with it.
    return file;
  }
}

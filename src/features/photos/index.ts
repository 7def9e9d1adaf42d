export { PhotoFileQuery } from './photos.schema.ts';
export { findPhotoFile, photosForClient, type PictureFile } from './photos.store.ts';
export { sendPicture } from './send-picture.ts';

import { MOST_PICTURE_BYTES } from './limits.ts';

/** Longest sides tried, pixels, the first that is small enough is kept. */
const SIDES = [1280, 1024, 800, 640, 480, 320] as const;
const QUALITY = 0.6;

/**
 * A picture made small enough to keep: a JPEG drawn anew, so that nothing of the original file
 * but its pixels is left, neither place nor camera.
 * @throws Error in words for the reader when the file is no picture that this browser knows.
 */
export async function smallPicture(file: Blob): Promise<Blob> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error('This file is no picture that this browser can read.');
  }
  for (const side of SIDES) {
    const picture = await drawn(bitmap, side);
    if (picture.size > MOST_PICTURE_BYTES) continue;
    bitmap.close();
    return picture;
  }
  bitmap.close();
  throw new Error('This picture could not be made small enough to keep.');
}

async function drawn(bitmap: ImageBitmap, side: number): Promise<Blob> {
  const scale = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error('This picture could not be kept.'))),
      'image/jpeg',
      QUALITY,
    ),
  );
}

/** A picture as base64, for a file. */
export async function base64Of(picture: Blob): Promise<string> {
  const bytes = new Uint8Array(await picture.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000)
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

/** A picture from base64 out of a file. */
export function pictureFrom(base64: string): Blob {
  const text = atob(base64);
  return new Blob([Uint8Array.from(text, (c) => c.charCodeAt(0))], { type: 'image/jpeg' });
}

/** Address of a picture that a page under this site's policy may show. */
export const pictureAddress = async (picture: Blob): Promise<string> =>
  `data:image/jpeg;base64,${await base64Of(picture)}`;
